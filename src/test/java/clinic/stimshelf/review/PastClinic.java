package clinic.stimshelf.review;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.restassured.specification.RequestSpecification;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;

/** A clinic of a test's own that has a past: it comes in through the files that are open to all. */
@ApplicationScoped
class PastClinic {
  static final LocalDate START = LocalDate.parse("2026-01-12");

  @Inject Crew crew;
  @Inject MutableClock clock;

  /** What a test looks at. */
  record Scene(
      Long location, String code, String pad, Crew.Member manager, Crew.Member therapist) {}

  /** A location with a pad type of 4 a pack, 20 uses, 7.50 by the list; 20 packs came for 8.00. */
  Scene open() {
    clock.set(Instant.parse("2026-04-15T14:00:00Z"));
    String code = Crew.unique("Past");
    Long location = crew.location(code);
    String pad = Crew.unique("PP-");
    Scene scene =
        new Scene(
            location,
            code,
            pad,
            crew.withPassword(Roles.MANAGER, Credential.NONE, location),
            crew.member(Roles.THERAPIST, Credential.PT, location));
    Map<String, String> files = new LinkedHashMap<>();
    files.put(
        "pad-types",
        "code,name,width_mm,height_mm,connector,pads_per_pack,rated_uses,open_days,price\n"
            + pad
            + ",Oblong "
            + pad
            + ",50,90,snap,4,20,30,7.50\n");
    files.put(
        "deliveries",
        "ref,location,code,lot,expires_on,packs,price,ordered_on,happened_at\n"
            + pad
            + "-d,"
            + code
            + ","
            + pad
            + ",=1+1,2027-12-31,200,8.00,2026-01-02,2026-01-05T09:00\n");
    files.put(
        "unit-kinds",
        "code,name,channels,connector,output,charge_days,cell_type,price\n"
            + pad
            + ",Kind,2,snap,milliamperes,30,built in,300\n");
    enter(scene, files);
    return scene;
  }

  /**
   * A program of 84 sessions from {@link #START}, with a loan.
   *
   * @param packs given with the loan
   * @param done sessions of which a diary tells
   */
  void program(Scene scene, int packs, int done) {
    program(scene, packs, done, "2026-02-23", "2026-02-23T10:00");
  }

  /**
   * The same with the days of the loan; it is out still where it did not come back.
   *
   * @return the unit and its program; the loan is the same with "-l" behind
   */
  String program(Scene scene, int packs, int done, String due, String returned) {
    String ref = Crew.unique("PR-");
    String chart = Crew.unique("PC-");
    Map<String, String> files = new LinkedHashMap<>();
    files.put(
        "patients",
        "chart_number,location,name,birth_date,reach_by,phone\n"
            + chart
            + ","
            + scene.code()
            + ",Ines Fairbrook,1961-02-03,call,(555) 010-0100\n");
    files.put(
        "units",
        "tag,serial,kind,location,purpose,state,next_test_on\n"
            + ref
            + ","
            + ref
            + ","
            + scene.pad()
            + ","
            + scene.code()
            + ",home,ready,2027-01-01\n");
    files.put(
        "programs",
        "ref,location,patient,therapist,on_seconds,off_seconds,contractions,frequency_hz,"
            + "frequency_kind,pulse_width_us,sessions_per_day,days_per_week,weeks,starts_on,"
            + "placements,pads,due_kind,drafted_at,signed_at,first_session_at\n"
            + String.join(
                ",",
                ref,
                scene.code(),
                chart,
                scene.therapist().username(),
                "15,45,15,50,pulses,250,2,7,6",
                START.toString(),
                "quadriceps left 2",
                scene.pad() + ": 4",
                "drop-off",
                "2026-01-09T09:30,2026-01-09T10:00,2026-01-09T10:30\n"));
    files.put(
        "loans",
        "ref,location,unit,program,checked_out_at,due_on,returned_at\n"
            + String.join(
                ",", ref + "-l", scene.code(), ref, ref, "2026-01-11T10:00", due, returned + "\n"));
    files.put(
        "packs-given",
        "ref,location,patient,loan,code,lot,packs,happened_at\n"
            + String.join(
                ",",
                ref + "-g",
                scene.code(),
                chart,
                ref + "-l",
                scene.pad(),
                "=1+1",
                String.valueOf(packs),
                "2026-01-11T10:00\n"));
    StringBuilder logs = new StringBuilder("ref,program,on_day,number,outcome,source\n");
    for (int i = 0; i < done; i++) {
      logs.append(
          String.join(
              ",",
              ref + "-s" + i,
              ref,
              START.plusDays(i / 2).toString(),
              String.valueOf(1 + i % 2),
              "done",
              "diary\n"));
    }
    files.put("session-logs", logs.toString());
    files.put(
        "pad-sets",
        "ref,location,patient,program,code,lot,pads,opened_on,uses,outcome,closed_on\n"
            + String.join(
                ",",
                ref + "-p",
                scene.code(),
                chart,
                ref,
                scene.pad(),
                scene.pad() + ":=1+1",
                "4",
                "2026-01-12",
                "10",
                "lost",
                "2026-01-17\n"));
    enter(scene, files);
    return ref;
  }

  void enter(Scene scene, Map<String, String> files) {
    RequestSpecification sent = scene.manager().script();
    files.forEach(
        (name, text) ->
            sent.multiPart(
                "files", name + ".csv", text.getBytes(StandardCharsets.UTF_8), "text/csv"));
    sent.post("/api/imports").then().statusCode(200);
  }
}
