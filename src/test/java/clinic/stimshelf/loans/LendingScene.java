package clinic.stimshelf.loans;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.LotView;
import clinic.stimshelf.pads.NewDelivery;
import clinic.stimshelf.pads.NewPadType;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.pads.Supply;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.shelf.Checklist;
import clinic.stimshelf.shelf.KindView;
import clinic.stimshelf.shelf.NewUnit;
import clinic.stimshelf.shelf.OutputScale;
import clinic.stimshelf.shelf.Part;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitCare;
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
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** A clinic of a test's own, in which lending can begin. */
@ApplicationScoped
public class LendingScene {
  public static final ZoneId ZONE = ZoneId.of("America/New_York");
  public static final LocalDate TUESDAY = LocalDate.parse("2026-03-03");

  @Inject Crew crew;
  @Inject Folk folk;
  @Inject Locations locations;
  @Inject PadCatalog catalog;
  @Inject PadStock stock;
  @Inject Supply supply;
  @Inject ShelfKeeping keeping;
  @Inject UnitCare care;
  @Inject Checklist checklist;
  @Inject MutableClock clock;

  /** What a test begins with: staff, a pad type with a lot, a kind of unit. */
  public record Scene(
      Long location,
      String code,
      Crew.Member pt,
      Crew.Member desk,
      Crew.Member manager,
      String pad,
      Long lot,
      String kind) {}

  public void at(LocalDate day, String time) {
    clock.set(day.atTime(LocalTime.parse(time)).atZone(ZONE).toInstant());
  }

  /** How many spare sets leave with a unit. */
  @ActivateRequestContext
  void spares(Scene scene, int sets) {
    locations.choose(scene.location(), Map.of("spare-sets", String.valueOf(sets)));
  }

  void later(int minutes) {
    clock.advance(java.time.Duration.ofMinutes(minutes));
  }

  @ActivateRequestContext
  public Scene open() {
    at(TUESDAY, "09:00");
    String code = Crew.unique("lend");
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
    String kind = Crew.unique("kind");
    keeping.addKind(
        new KindView(
            null,
            kind,
            "Kind " + kind,
            2,
            "snap",
            OutputScale.MILLIAMPERES,
            5,
            "lithium",
            new BigDecimal("240.00"),
            true,
            List.of(
                new KindView.PartLine(Part.LEAD_SET, "lead set", true),
                new KindView.PartLine(Part.CHARGER, "charger", true),
                new KindView.PartLine(Part.BAG, "bag", false))));
    Long lot = lot(pad, location, "L-1", TUESDAY.plusMonths(12), 100);
    return new Scene(
        location,
        code,
        crew.member(Roles.THERAPIST, Credential.PT, location),
        crew.member(Roles.FRONT_DESK, Credential.NONE, location),
        crew.member(Roles.MANAGER, Credential.NONE, location),
        pad,
        lot,
        kind);
  }

  /** Another location with the same pads and kind of unit. */
  @ActivateRequestContext
  Scene beside(Scene scene) {
    String code = Crew.unique("beside");
    Long location = crew.location(code);
    return new Scene(
        location,
        code,
        crew.member(Roles.THERAPIST, Credential.PT, location),
        crew.member(Roles.FRONT_DESK, Credential.NONE, location),
        crew.member(Roles.MANAGER, Credential.NONE, location),
        scene.pad(),
        lot(scene.pad(), location, "L-2", TUESDAY.plusMonths(12), 100),
        scene.kind());
  }

  @ActivateRequestContext
  Long lot(String pad, Long location, String number, LocalDate expiresOn, int packs) {
    supply.receive(
        new NewDelivery(
            location,
            null,
            null,
            List.of(new NewDelivery.Line(pad, number, expiresOn, packs, null))),
        now());
    return stock.lotsAt(pad, location).stream()
        .filter(lot -> lot.number().equals(number))
        .map(LotView::id)
        .findFirst()
        .orElseThrow();
  }

  /** Sealed packs of the pad type in the cupboard. */
  @ActivateRequestContext
  int packs(Scene scene) {
    return stock.lotsAt(scene.pad(), scene.location()).stream().mapToInt(LotView::packs).sum();
  }

  /** A unit that may leave, but for the setting. */
  @ActivateRequestContext
  public String unit(Scene scene, LocalDate nextTestOn) {
    String tag =
        keeping.addUnit(
            new NewUnit(
                Crew.unique("U"),
                Crew.unique("S"),
                scene.kind(),
                scene.location(),
                null,
                "both",
                nextTestOn,
                null,
                null,
                null));
    inspect(tag);
    care.charged(tag, now());
    return tag;
  }

  public String unit(Scene scene) {
    return unit(scene, TUESDAY.plusMonths(8));
  }

  @ActivateRequestContext
  void inspect(String tag) {
    Map<String, Boolean> answers = new TreeMap<>();
    checklist.items().forEach(item -> answers.put(item.key(), true));
    care.inspected(tag, answers, null, false, now());
  }

  /** A program from the complete template, signed: 84 sessions in six weeks, five sets of pads. */
  public String signed(Scene scene) {
    Long patient = folk.patient(scene.location());
    folk.screened(patient, "quadriceps", Side.LEFT, scene.pt());
    String id = post(scene.pt(), "/api/programs", body(scene, patient)).extract().path("id");
    post(scene.pt(), "/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(200);
    return id;
  }

  Map<String, Object> body(Scene scene, Long patient) {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("patientId", String.valueOf(patient));
    body.put("template", "knee-replacement-early");
    body.put(
        "placements",
        new ArrayList<>(List.of(Map.of("muscle", "quadriceps", "side", "left", "channels", 2))));
    body.put("pads", new ArrayList<>(List.of(Map.of("code", scene.pad(), "perSession", 4))));
    body.put("startsOn", TUESDAY.plusDays(1).toString());
    body.put("dueKind", "drop-off");
    body.put("setting", "Mode P3: 50 Hz, 250 µs, 15/45");
    return body;
  }

  /** First session and setting, as the therapist records them. */
  void prepared(Scene scene, String program, String unit) {
    post(scene.pt(), "/api/programs/" + program + "/first-session", Map.of("words", "fine"))
        .statusCode(200);
    confirmed(scene, program, unit);
  }

  void confirmed(Scene scene, String program, String unit) {
    post(
            scene.pt(),
            "/api/programs/" + program + "/setting",
            Map.of("unitTag", unit, "matches", true))
        .statusCode(200);
  }

  /** A check out with everything in it. */
  Map<String, Object> order(Scene scene, String program, String unit, int packs) {
    Map<String, Object> order = new LinkedHashMap<>();
    order.put("programId", program);
    order.put("unitTag", unit);
    order.put("packs", List.of(Map.of("lotId", String.valueOf(scene.lot()), "packs", packs)));
    order.put("identifiers", List.of("name", "birth-date"));
    order.put(
        "agreement",
        Map.of(
            "signer", "Ada Lindqvist",
            "relation", "self",
            "means", "paper",
            "language", "en",
            "textVersion", "2026-1"));
    return order;
  }

  /** A unit that is out; answers the loan's id. */
  public String lent(Scene scene, String program, String unit) {
    prepared(scene, program, unit);
    return post(scene.desk(), "/api/loans", order(scene, program, unit, 2))
        .statusCode(200)
        .extract()
        .path("id");
  }

  public static ValidatableResponse post(Crew.Member as, String path, Object body) {
    return as.script().contentType(ContentType.JSON).body(body).post(path).then();
  }

  public static ValidatableResponse get(Crew.Member as, String path) {
    return as.script().get(path).then();
  }

  Happened now() {
    return Happened.at(clock.instant());
  }

  @ActivateRequestContext
  <T> T call(java.util.concurrent.Callable<T> work) throws Exception {
    return work.call();
  }
}
