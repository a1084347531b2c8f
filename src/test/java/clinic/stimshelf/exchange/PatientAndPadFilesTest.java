package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.pads.DrawerReason;
import clinic.stimshelf.pads.DrawerTake;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import org.junit.jupiter.api.Test;

@QuarkusTest
class PatientAndPadFilesTest {
  @Inject Files files;
  @Inject Crew crew;
  @Inject PadStock stock;

  private String at;
  private Long location;

  private void location() {
    at = Crew.unique("PadFiles");
    location = crew.location(at);
  }

  @Test
  void patientsComeInOnceAndGoOutTheSame() {
    location();
    String chart = Crew.unique("C-");
    String file =
        "\uFEFFchart_number;location;name;birth_date;guardian_name;guardian_relation;language;"
            + "interpreter;reach_by;phone;email;reminders_allowed\n"
            + (chart + ";" + at + ";\"Zúñiga, Inés\";3/14/2015;Marta Zúñiga;mother;es;yes;text;")
            + "'+1 555 0100;;yes\n"
            + (chart + "B;" + at + ";=cmd()|x;1961-02-03;;;;;call;555 0101;;\n");
    assertThat(files.enter("patients", file).entered()).isEqualTo(2);
    assertThat(files.enter("patients", file).unchanged()).isEqualTo(2);
    files.assertRoundTrip("patients", 2, location);
    assertThat(files.export("patients", location))
        .contains("\"Zúñiga, Inés\"", "'+1 555 0100", "'=cmd()|x", "2015-03-14");
  }

  @Test
  void outcomesComeInOnceAndGoOutTheSame() {
    location();
    String chart = Crew.unique("C-");
    files.enter(
        "patients",
        "chart_number,location,name,birth_date,reach_by,phone\n"
            + (chart + "," + at + ",Ann Poe,1961-02-03,call,555 0101\n"));
    String file =
        "ref,location,patient,measure,side,what,involved,uninvolved,happened_at\n"
            + (chart + "-1," + at + "," + chart + ",peak-torque,left,knee 60,150,200,")
            + "2026-01-05T09:00\n"
            + (chart + "-2," + at + "," + chart + ",current,left,quadriceps,42.5,,")
            + "2026-01-05T09:10\n";
    assertThat(files.enter("outcome-notes", file).entered()).isEqualTo(2);
    files.assertRoundTrip("outcome-notes", 2, location);
    assertThat(files.export("outcome-notes", location)).contains("knee 60,150,200");
  }

  @Test
  void faultsOfPatientsAreNamed() {
    location();
    Outcome outcome =
        files.run(
            "patients",
            "chart_number,location,name,birth_date,reach_by,email\n"
                + Crew.unique("C-")
                + ","
                + at
                + ",Ann Poe,3/14/2099,text,\n"
                + Crew.unique("C-")
                + ",NOWHERE,Ann Poe,31/12/1999,pigeon,\n",
            true);
    assertThat(outcome.faults().stream().map(Fault::words))
        .anySatisfy(f -> assertThat(f).startsWith("patients.csv, line 2, ").contains("birth"))
        .anySatisfy(f -> assertThat(f).contains("line 3, location, “NOWHERE”"))
        .anySatisfy(f -> assertThat(f).contains("line 3, birth_date, “31/12/1999”"))
        .anySatisfy(
            f -> assertThat(f).contains("line 3, reach_by, “pigeon”: Allowed is one of text"));
  }

  @Test
  void aLedgerComesInAndGoesOutWithItsBalance() {
    location();
    String code = Crew.unique("P-");
    files.enter(
        "pad-types",
        "code,name,shape,width_mm,height_mm,connector,pads_per_pack,rated_uses,open_days,price\n"
            + code
            + ",Oblong,rectangle,50,90,snap,4,20,30,8.75\n");
    files.enter(
        "pad-lots",
        "code,lot,expires_on,held_back\n"
            + code
            + ",A/1,2031-05-31,\n"
            + code
            + ",B,2031-08-31,bad glue\n");
    String stockFile =
        "ref,location,code,lot,packs,happened_at\n"
            + code
            + "-o1,"
            + at
            + ","
            + code
            + ",A/1,10,2026-01-05 08:00\n";
    assertThat(files.enter("opening-stock", stockFile).entered()).isEqualTo(1);
    assertThat(files.enter("opening-stock", stockFile).unchanged()).isEqualTo(1);
    files.enter(
        "deliveries",
        "ref,location,code,lot,expires_on,packs,ordered_on,happened_at\n"
            + code
            + "-d1,"
            + at
            + ","
            + code
            + ",C9,2032-01-31,24,2026-01-12,1/19/2026 10:15 AM\n");
    files.enter(
        "drawer-takes",
        "ref,location,code,lot,packs,drawer_reason,happened_at\n"
            + code
            + "-t1,"
            + at
            + ","
            + code
            + ",,3,trial,2026-02-02 11:00\n");
    crew.as(
        crew.member("manager", clinic.stimshelf.access.Credential.NONE, location).id(),
        () -> {
          stock.drawerTake(
              new DrawerTake(null, code, location, 1, DrawerReason.DAMAGED, null, null, null),
              Happened.at(Instant.now()));
          return null;
        });
    assertThat(stock.position(code, location).onHand()).isEqualTo(30);
    files.assertRoundTrip("opening-stock", 1, location);
    files.assertRoundTrip("deliveries", 1, location);
    files.assertRoundTrip("drawer-takes", 2, location);
    assertThat(stock.position(code, location).onHand()).isEqualTo(30);
    assertThat(files.export("deliveries", location))
        .contains("2026-01-19T10:15:00-05:00", "2026-01-12");
  }

  @Test
  void morePacksThanThereAreStopTheWholeFile() {
    location();
    String code = Crew.unique("P-");
    files.enter(
        "pad-types",
        "code,name,width_mm,height_mm,connector,pads_per_pack\n" + code + ",Oblong,50,90,snap,4\n");
    files.enter(
        "opening-stock",
        "ref,location,code,lot,expires_on,packs,happened_at\n"
            + code
            + "-o1,"
            + at
            + ","
            + code
            + ",L1,2031-05-31,2,2026-01-05T08:00\n");
    Outcome outcome =
        files.run(
            "drawer-takes",
            "ref,location,code,lot,packs,drawer_reason,happened_at\n"
                + code
                + "-t1,"
                + at
                + ","
                + code
                + ",L1,1,trial,2026-02-02 11:00\n"
                + code
                + "-t2,"
                + at
                + ","
                + code
                + ",L1,5,trial,2026-02-03 11:00\n"
                + code
                + "-o1,"
                + at
                + ","
                + code
                + ",L1,1,trial,2026-02-03 11:00\n"
                + code
                + "-t3,"
                + at
                + ","
                + code
                + ",L1,1,trial,2099-02-03 11:00\n",
            true);
    assertThat(outcome.faults().stream().map(Fault::words))
        .anySatisfy(
            f -> assertThat(f).startsWith("drawer-takes.csv, line 3, packs, “5”: Of lot L1"))
        .anySatisfy(f -> assertThat(f).contains("line 4, ref").contains("Another kind of file"))
        .anySatisfy(f -> assertThat(f).contains("line 5, happened_at").contains("future"));
    assertThat(stock.position(code, location).onHand()).isEqualTo(2);
  }
}
