package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import org.junit.jupiter.api.Test;

@QuarkusTest
class ShelfFilesTest {
  @Inject Files files;
  @Inject Crew crew;
  @Inject Shelf shelf;

  @Test
  void unitsWithKitsAndCareComeInAndGoOutTheSame() {
    String at = Crew.unique("ShelfFiles");
    Long location = crew.location(at);
    String kind = Crew.unique("K-");
    String unit = Crew.unique("XU-");
    files.enter(
        "unit-kinds",
        "code,name,channels,connector,output,charge_days,price,contents\n"
            + kind
            + ",Two channels,2,snap,milliamperes,30,499.00,"
            + "lead-set: Lead wires | charger: Charger | bag: Bag (may be owed)\n");
    files.enter("storage-spots", "location,name,position\n" + at + ",Upper board,1\n");
    files.enter(
        "units",
        "tag,serial,kind,location,spot,state,next_test_on,charged_at,acquired_on\n"
            + unit
            + ",SN 1,"
            + kind
            + ","
            + at
            + ",Upper board,ready,2031-05-01,2026-03-02 08:00,2025-01-07\n"
            + unit
            + "B,SN 2,"
            + kind
            + ","
            + at
            + ",,to-wipe,2031-05-01,,2025-01-07\n");
    files.enter(
        "kits",
        "ref,unit,part,name,tag,essential,present\n"
            + unit
            + "-1,"
            + unit
            + ",lead-set,Lead wires,"
            + unit
            + "L,yes,yes\n"
            + unit
            + "-2,"
            + unit
            + ",bag,Bag,,no,no\n");
    files.enter(
        "wipes",
        "ref,unit,product,wiped_at,done_by\n"
            + unit
            + "-w,"
            + unit
            + ",gray-tub,2026-03-01 09:00,Ann\n");
    files.enter(
        "inspections",
        "ref,unit,inspected_at,passed\n" + unit + "-i," + unit + ",2026-03-01 09:10,yes\n");
    files.enter(
        "safety-tests",
        "ref,unit,tested_on,passed,next_due_on,tester\n"
            + unit
            + "-s,"
            + unit
            + ",2026-01-15,yes,2027-01-15,Bench & Co\n");
    files.enter(
        "unit-faults",
        "ref,unit,kind,noticed_at,words\n"
            + unit
            + "-f,"
            + unit
            + ",drop,2026-02-01 10:00,fell from the table\n");
    UnitView view =
        crew.as(
            crew.member(Roles.MANAGER, Credential.NONE, location).id(), () -> shelf.byTag(unit));
    assertThat(view.state()).isEqualTo(UnitState.READY);
    assertThat(view.contents()).hasSize(2);
    files.assertRoundTrip("storage-spots", 1, location);
    files.assertRoundTrip("units", 2, location);
    files.assertRoundTrip("kits", 2, location);
    files.assertRoundTrip("wipes", 1, location);
    files.assertRoundTrip("inspections", 1, location);
    files.assertRoundTrip("safety-tests", 1, location);
    files.assertRoundTrip("unit-faults", 1, location);
    String kinds = files.export("unit-kinds", location);
    assertThat(kinds)
        .contains(kind + ",Two channels,2,snap,milliamperes,30,,499,yes,")
        .contains("lead-set: Lead wires | charger: Charger | bag: Bag (may be owed)");
    assertThat(files.enter("unit-kinds", kinds).entered()).isZero();
  }

  @Test
  void screeningsAndConsentsComeInAndGoOutTheSame() {
    String at = Crew.unique("ShelfFiles");
    Long location = crew.location(at);
    String chart = Crew.unique("C-");
    Crew.Member pt = crew.member(Roles.THERAPIST, Credential.PT, location);
    files.enter(
        "patients",
        "chart_number,location,name,birth_date,reach_by,phone\n"
            + chart
            + ","
            + at
            + ",Ann Poe,1961-02-03,call,555 0101\n");
    files.enter(
        "screenings",
        "ref,patient,muscle,side,therapist,screened_at,yes\n"
            + chart
            + "-s,"
            + chart
            + ",quadriceps,left,"
            + pt.username()
            + ",2026-03-02 10:00,metal_implant_passive: screws far from the pads\n");
    files.enter(
        "consents",
        "ref,patient,kind,given,text_version,signer,relation,means,signed_at\n"
            + chart
            + "-c,"
            + chart
            + ",loan,yes,2026-1,Ann Poe,self,paper,2026-03-02 10:05\n");
    files.assertRoundTrip("screenings", 1, location);
    files.assertRoundTrip("consents", 1, location);
    Outcome wrong =
        files.run(
            "screenings",
            "ref,patient,muscle,side,therapist,screened_at,yes\n"
                + chart
                + "-s2,"
                + chart
                + ",wing,up,nobody,2026-03-02 10:00,no_such\n",
            true);
    assertThat(wrong.faults().stream().map(Fault::column)).contains("side", "therapist");
  }
}
