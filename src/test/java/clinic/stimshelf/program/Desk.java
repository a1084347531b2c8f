package clinic.stimshelf.program;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.NewStaff;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.appointments.Appointments;
import clinic.stimshelf.appointments.NewAppointment;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.NewPadType;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A therapist's desk of a test's own: location, PT, patient, pads, and the days that are booked.
 */
@ApplicationScoped
public class Desk {
  static final ZoneId ZONE = ZoneId.of("America/New_York");

  @Inject Crew crew;
  @Inject Folk folk;
  @Inject Staff staff;
  @Inject Locations locations;
  @Inject PadCatalog catalog;
  @Inject Appointments appointments;
  @Inject MutableClock clock;

  /** What a test begins with. */
  record Scene(Long location, String code, Crew.Member pt, Long patient, String pad) {

    /** A program out of the complete template, four pads at once. */
    Map<String, Object> body(LocalDate startsOn) {
      Map<String, Object> body = new LinkedHashMap<>();
      body.put("patientId", String.valueOf(patient));
      body.put("template", "knee-replacement-early");
      body.put(
          "placements",
          new ArrayList<>(List.of(Map.of("muscle", "quadriceps", "side", "left", "channels", 2))));
      body.put("pads", new ArrayList<>(List.of(Map.of("code", pad, "perSession", 4))));
      body.put("startsOn", startsOn.toString());
      body.put("dueKind", "drop-off");
      body.put("setting", "Mode P3: 50 Hz, 250 µs, 15/45");
      return body;
    }

    /** Sends a call as the PT. */
    ValidatableResponse post(String path, Object body) {
      return post(pt, path, body);
    }

    static ValidatableResponse post(Crew.Member as, String path, Object body) {
      return as.script().contentType(ContentType.JSON).body(body).post(path).then();
    }

    String drafted(Map<String, Object> body) {
      return post("/api/programs", body).statusCode(201).extract().path("id");
    }

    String signed(Map<String, Object> body) {
      String id = drafted(body);
      post("/api/programs/" + id + "/signature", Map.of("reviewed", true)).statusCode(200);
      return id;
    }

    ValidatableResponse get(String id) {
      return pt.script().get("/api/programs/" + id).then().statusCode(200);
    }
  }

  /** Everything that a signature needs; the left thigh is screened. */
  Scene scene() {
    String code = Crew.unique("prog");
    Long location = crew.location(code);
    Crew.Member pt = crew.member(Roles.THERAPIST, Credential.PT, location);
    Long patient = folk.patient(location);
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    return new Scene(location, code, pt, patient, padType(4, 20, 30));
  }

  Crew.Member member(String role, Credential credential, Desk.Scene scene) {
    return crew.member(role, credential, scene.location());
  }

  /** A PT whose license ends with that day. */
  Crew.Member licensedUntil(String day, Desk.Scene scene) {
    Crew.Member member = crew.member(Roles.THERAPIST, Credential.PT, scene.location());
    StaffView view = staff.byId(member.id());
    crew.as(
        scene.pt().id(),
        () ->
            staff.change(
                view.id(),
                null,
                new NewStaff(
                    view.ref(),
                    view.name(),
                    view.initials(),
                    view.credential(),
                    "L-1",
                    LocalDate.parse(day),
                    view.role(),
                    view.username(),
                    view.locationIds())));
    return member;
  }

  String padType(int padsPerPack, int ratedUses, int openDays) {
    String code = Crew.unique("pad");
    catalog.add(
        new NewPadType(
            null,
            code,
            "2 by 4 " + code,
            PadShape.RECTANGLE,
            50,
            100,
            "snap",
            padsPerPack,
            null,
            ratedUses,
            openDays,
            new BigDecimal("7.5000"),
            "Larch Supply",
            7,
            1,
            0,
            null,
            null,
            null));
    return code;
  }

  /** Books the patient at ten o'clock on each day; answers the last appointment's number. */
  Long book(Scene scene, String... days) {
    Long last = null;
    for (String day : days) {
      Instant start = LocalDate.parse(day).atTime(10, 0).atZone(ZONE).toInstant();
      last =
          crew.as(
              scene.pt().id(),
              () ->
                  appointments.book(
                      new NewAppointment(
                          scene.location(),
                          scene.patient(),
                          null,
                          null,
                          null,
                          start,
                          start.plusSeconds(1800),
                          null,
                          null,
                          0,
                          null)));
    }
    return last;
  }

  void cancel(Scene scene, Long appointment) {
    crew.as(
        scene.pt().id(),
        () -> {
          appointments.cancel(appointment, "patient is ill", null, null);
          return null;
        });
  }

  /** Sets the clock to a local time at the locations. */
  void at(String day, String time) {
    clock.set(LocalDate.parse(day).atTime(LocalTime.parse(time)).atZone(ZONE).toInstant());
  }
}
