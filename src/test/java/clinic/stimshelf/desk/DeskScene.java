package clinic.stimshelf.desk;

import static org.hamcrest.Matchers.lessThan;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.pads.NewDelivery;
import clinic.stimshelf.pads.NewPadType;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.pads.Supply;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.shelf.Checklist;
import clinic.stimshelf.shelf.KindView;
import clinic.stimshelf.shelf.NewUnit;
import clinic.stimshelf.shelf.OutputScale;
import clinic.stimshelf.shelf.Part;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** A clinic of a test's own, on Wednesday, March 4, 2026, open from 8 to 18 o'clock on weekdays. */
@ApplicationScoped
public class DeskScene {
  public static final ZoneId ZONE = ZoneId.of("America/New_York");
  public static final LocalDate START = LocalDate.of(2026, 3, 4);

  /** Six weeks of seven days from the start, then the first open day: a Wednesday. */
  public static final LocalDate DUE = LocalDate.of(2026, 4, 15);

  @Inject Crew crew;
  @Inject Folk folk;
  @Inject PadCatalog catalog;
  @Inject Supply supply;
  @Inject PadLots lots;
  @Inject ShelfKeeping keeping;
  @Inject UnitCare care;
  @Inject Shelf shelf;
  @Inject Checklist checklist;
  @Inject MutableClock clock;

  /** Who works there and with what. */
  public record Clinic(
      Long location,
      String code,
      Crew.Member desk,
      Crew.Member pt,
      String kind,
      String pad,
      Long lot,
      String lotNumber) {

    public ValidatableResponse post(Crew.Member as, String path, Object body) {
      return as.script().contentType(ContentType.JSON).body(body).post(path).then();
    }

    public ValidatableResponse today() {
      return desk.script().get("/api/today?location=" + code).then().statusCode(200);
    }

    public ValidatableResponse scan(String text) {
      return post(desk, "/api/scan", Map.of("code", text)).statusCode(200);
    }
  }

  /** A patient with a signed program that waits for a unit. */
  public record Asked(Long patient, String chart, String program, String request) {}

  /** A loan. */
  public record Lent(String loan, String unit, Asked asked) {}

  public void at(LocalDate day, String time) {
    clock.set(day.atTime(LocalTime.parse(time)).atZone(ZONE).toInstant());
  }

  @ActivateRequestContext
  public Clinic clinic() {
    at(START, "09:00");
    String code = Crew.unique("desk");
    Long location = crew.location(code);
    String pad = Crew.unique("pad");
    catalog.add(
        new NewPadType(
            null,
            pad,
            "2 by 4 " + pad,
            PadShape.RECTANGLE,
            50,
            100,
            "snap",
            4,
            null,
            20,
            30,
            new BigDecimal("7.5000"),
            "Larch Supply",
            7,
            1,
            0,
            null,
            null,
            null));
    String number = Crew.unique("LOT");
    supply.receive(
        new NewDelivery(
            location,
            null,
            null,
            List.of(new NewDelivery.Line(pad, number, START.plusYears(1), 200, null))),
        now());
    String kind = Crew.unique("kind");
    keeping.addKind(
        new KindView(
            null,
            kind,
            "Kind " + kind,
            2,
            "snap",
            OutputScale.MILLIAMPERES,
            60,
            "lithium",
            new BigDecimal("240.00"),
            true,
            List.of(
                new KindView.PartLine(Part.LEAD_SET, "lead set", true),
                new KindView.PartLine(Part.BAG, "bag", false))));
    return new Clinic(
        location,
        code,
        crew.withPassword(Roles.FRONT_DESK, Credential.NONE, location),
        crew.withPassword(Roles.THERAPIST, Credential.PT, location),
        kind,
        pad,
        lots.byNumber(number).get(0).id(),
        number);
  }

  /** A unit that is tested, inspected and charged. */
  @ActivateRequestContext
  public UnitView ready(Clinic clinic) {
    String tag = toInspect(clinic).tag();
    Map<String, Boolean> fine = new TreeMap<>();
    checklist.items().forEach(item -> fine.put(item.key(), true));
    care.inspected(tag, fine, null, false, now());
    care.charged(tag, now());
    return shelf.byTag(tag);
  }

  /** A new unit. */
  @ActivateRequestContext
  public UnitView toInspect(Clinic clinic) {
    return shelf.byTag(
        keeping.addUnit(
            new NewUnit(
                null,
                Crew.unique("SN"),
                clinic.kind(),
                clinic.location(),
                null,
                "both",
                START.plusMonths(9),
                null,
                null,
                null)));
  }

  /** A patient whose program is signed and waits for a unit; all but the setting is done. */
  public Asked asked(Clinic clinic) {
    Long patient = folk.patient(clinic.location());
    folk.screened(patient, "quadriceps", Side.LEFT, clinic.pt());
    Map<String, Object> body =
        Map.of(
            "patientId", String.valueOf(patient),
            "template", "knee-replacement-early",
            "placements", List.of(Map.of("muscle", "quadriceps", "side", "left", "channels", 2)),
            "pads", List.of(Map.of("code", clinic.pad(), "perSession", 4)),
            "startsOn", START.toString(),
            "dueKind", "drop-off",
            "setting", "Mode P3: 50 Hz, 250 µs, 15/45");
    String program =
        clinic
            .post(clinic.pt(), "/api/programs", body)
            .statusCode(lessThan(300))
            .extract()
            .path("id");
    String path = "/api/programs/" + program;
    clinic.post(clinic.pt(), path + "/signature", Map.of("reviewed", true)).statusCode(200);
    clinic.post(clinic.pt(), path + "/first-session", Map.of()).statusCode(200);
    String request =
        clinic
            .post(clinic.desk(), "/api/requests", Map.of("programId", program))
            .statusCode(lessThan(300))
            .extract()
            .path("id");
    String chart =
        clinic.pt().script().get("/api/patients/" + patient).then().extract().path("chartNumber");
    return new Asked(patient, chart, program, request);
  }

  public void confirmSetting(Clinic clinic, Asked asked, String unit) {
    clinic
        .post(
            clinic.pt(),
            "/api/programs/" + asked.program() + "/setting",
            Map.of("unitTag", unit, "matches", true))
        .statusCode(200);
  }

  /** A unit with a patient, due on {@link #DUE}. */
  public Lent lent(Clinic clinic) {
    String unit = ready(clinic).tag();
    Asked asked = asked(clinic);
    confirmSetting(clinic, asked, unit);
    Map<String, Object> agreement =
        Map.of(
            "signer", "Ada Lindqvist",
            "relation", "self",
            "means", "paper",
            "language", "en",
            "textVersion", "1");
    Map<String, Object> body =
        Map.of(
            "programId", asked.program(),
            "unitTag", unit,
            "packs", List.of(Map.of("lotId", String.valueOf(clinic.lot()), "packs", 2)),
            "identifiers", List.of("name", "birth-date"),
            "agreement", agreement);
    String loan =
        clinic
            .post(clinic.desk(), "/api/loans", body)
            .statusCode(lessThan(300))
            .extract()
            .path("id");
    return new Lent(loan, unit, asked);
  }

  public Happened now() {
    return Happened.at(clock.instant());
  }
}
