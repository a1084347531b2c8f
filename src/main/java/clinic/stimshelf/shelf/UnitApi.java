package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/** The shelf for scripts. */
@Path("/api/units")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@Retried
class UnitApi {
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject ShelfKeeping keeping;
  @Inject UnitHistories histories;
  @Inject Checklist checklist;
  @Inject EventTimes times;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A unit. Until: when the use that runs is expected to end. Ready at: end of a contact time. */
  record UnitJson(
      String tag,
      String serial,
      String kind,
      int channels,
      String connector,
      String location,
      String spot,
      UnitState state,
      Instant stateSince,
      String stateReason,
      String purpose,
      LocalDate nextTestOn,
      Instant chargedAt,
      boolean charged,
      boolean charging,
      Instant readyAt,
      Set<Soiling> soiling,
      Instant heldUntil,
      boolean packSwollen,
      UseKind usedFor,
      Instant until,
      UseKind reservedFor,
      Integer useCounter,
      int version) {

    static UnitJson of(UnitView unit) {
      return new UnitJson(
          unit.tag(),
          unit.serial(),
          unit.kind(),
          unit.channels(),
          unit.connector(),
          unit.location(),
          unit.spot(),
          unit.state(),
          unit.stateSince(),
          unit.stateReason(),
          unit.purpose(),
          unit.nextTestOn(),
          unit.chargedAt(),
          unit.charged(),
          unit.charging(),
          unit.readyAt(),
          unit.soiling(),
          unit.heldUntil(),
          unit.packSwollen(),
          unit.use() == null ? null : unit.use().kind(),
          unit.use() == null ? null : unit.use().until(),
          unit.reservedFor(),
          unit.useCounter(),
          unit.version());
    }
  }

  record PartJson(
      String id, Part part, String name, String tag, boolean essential, PartState state) {}

  record RateJson(long faults, long sessions, double per100) {
    static RateJson of(FaultRate rate) {
      return new RateJson(rate.faults(), rate.sessions(), rate.per100());
    }
  }

  /** A unit with its kit and history, newest first. */
  record UnitWhole(
      @JsonUnwrapped UnitJson unit,
      List<PartJson> contents,
      List<HistoryLine> history,
      RateJson faults,
      RateJson faultsOfKind,
      RateJson faultsOfFleet) {}

  record NewUnitBody(
      String tag,
      String serial,
      String kind,
      String location,
      String spot,
      String purpose,
      LocalDate nextTestOn,
      LocalDate acquiredOn,
      Integer useCounter,
      String ownerWords) {}

  /** A product's key from config/wipe-products.yaml; left out, the one proposed. */
  record WipedBody(String product, String note, Instant happenedAt, String lateReason) {}

  /** What is on the unit: any of body-fluid, pests, contact-precautions. */
  record SoiledBody(Set<Soiling> soiling, Instant happenedAt, String lateReason) {}

  /** Why it was not so after all. */
  record NotSoiledBody(String reason, Instant happenedAt, String lateReason) {}

  /**
   * Either an answer for each point of config/inspection.yaml (true: fine), or {@code passed: true}
   * for every point fine. A point that is not fine takes the unit out of service unless {@code
   * staysToInspect} is true.
   */
  record InspectedBody(
      Map<String, Boolean> answers,
      Boolean passed,
      String note,
      Boolean staysToInspect,
      Instant happenedAt,
      String lateReason) {}

  record EventBody(Instant happenedAt, String lateReason) {}

  record TestBody(
      LocalDate testedOn,
      Boolean passed,
      LocalDate nextDueOn,
      String tester,
      String certificate,
      String note,
      Instant happenedAt,
      String lateReason) {}

  /** Cause: fault, drop, repair or other (where it is left out). */
  record ReasonBody(String reason, String cause, Instant happenedAt, String lateReason) {}

  /** The units of the account's locations by tag; a state, a kind's code or a purpose narrow it. */
  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<UnitJson> list(
      @QueryParam("location") String location,
      @QueryParam("state") String state,
      @QueryParam("kind") String kind,
      @BeanParam Paging paging) {
    UnitState wanted = state == null || state.isBlank() ? null : UnitState.byWord(state);
    if (wanted == null && state != null && !state.isBlank()) {
      throw new Malformed("state", "There is no state “" + state + "”: see the units' states.");
    }
    List<UnitView> all =
        shelf.fleet(signedIn.locationsOr(location)).stream()
            .filter(unit -> wanted == null || unit.state() == wanted)
            .filter(unit -> kind == null || kind.isBlank() || unit.kind().equals(kind))
            .toList();
    return paging.cut(all).map(UnitJson::of);
  }

  @GET
  @Path("{tag}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response one(@PathParam("tag") String tag) {
    UnitView unit = mine(tag);
    UnitHistory history = histories.of(unit.tag());
    UnitWhole whole =
        new UnitWhole(
            UnitJson.of(unit),
            unit.contents().stream()
                .map(
                    item ->
                        new PartJson(
                            String.valueOf(item.id()),
                            item.part(),
                            item.name(),
                            item.tag(),
                            item.essential(),
                            item.state()))
                .toList(),
            history.lines(),
            RateJson.of(history.own()),
            RateJson.of(history.kind()),
            RateJson.of(history.fleet()));
    return Response.ok(whole).tag(IfMatch.tag(unit.version())).build();
  }

  @POST
  @Idempotent
  @RolesAllowed(Roles.MANAGER)
  public Response add(NewUnitBody body) {
    NewUnitBody wanted = needed(body);
    Long locationId = signedIn.locationOr(wanted.location());
    String tag =
        keeping.addUnit(
            new NewUnit(
                wanted.tag(),
                wanted.serial(),
                wanted.kind(),
                locationId,
                spot(locationId, wanted.spot()),
                wanted.purpose() == null ? Purpose.BOTH.word() : wanted.purpose(),
                wanted.nextTestOn(),
                wanted.acquiredOn(),
                wanted.useCounter(),
                wanted.ownerWords()));
    return Response.created(URI.create("/api/units/" + tag))
        .entity(UnitJson.of(shelf.byTag(tag)))
        .build();
  }

  @POST
  @Idempotent
  @Path("{tag}/wiped")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public UnitJson wiped(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, WipedBody body) {
    WipedBody said = body == null ? new WipedBody(null, null, null, null) : body;
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.wiped(tag, said.product(), said.note(), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/soiled")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public UnitJson soiled(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, SoiledBody body) {
    SoiledBody said = needed(body);
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.soiled(tag, said.soiling(), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/not-soiled")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public UnitJson notSoiled(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, NotSoiledBody body) {
    NotSoiledBody said = needed(body);
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.notSoiled(tag, said.reason(), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/inspected")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public UnitJson inspected(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, InspectedBody body) {
    InspectedBody said = needed(body);
    Map<String, Boolean> answers = new TreeMap<>();
    if (said.answers() != null) {
      answers.putAll(said.answers());
    } else if (Boolean.TRUE.equals(said.passed())) {
      checklist.items().forEach(item -> answers.put(item.key(), true));
    } else if (said.passed() != null) {
      throw new Malformed(
          "answers",
          "Say which point is not fine: answers for "
              + checklist.items().stream()
                  .map(Checklist.Item::key)
                  .collect(Collectors.joining(", "))
              + ".");
    }
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened ->
            care.inspected(
                tag, answers, said.note(), Boolean.TRUE.equals(said.staysToInspect()), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/charging")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public UnitJson charging(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, EventBody body) {
    return plain(tag, match, body, happened -> care.charging(tag, happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/charged")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public UnitJson charged(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, EventBody body) {
    return plain(tag, match, body, happened -> care.charged(tag, happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/safety-test")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public UnitJson tested(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, TestBody body) {
    TestBody said = needed(body);
    if (said.passed() == null) {
      throw new Malformed("passed", "Say whether the test was passed: true or false.");
    }
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened ->
            care.tested(
                tag,
                new UnitCare.NewTest(
                    said.testedOn(),
                    said.passed(),
                    said.nextDueOn(),
                    said.tester(),
                    said.certificate(),
                    said.note()),
                happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/out-of-service")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public UnitJson outOfService(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, ReasonBody body) {
    ReasonBody said = needed(body);
    UnitCare.Cause cause =
        said.cause() == null ? UnitCare.Cause.OTHER : UnitCare.Cause.byWord(said.cause());
    if (cause == null) {
      throw new Malformed("cause", "The cause is fault, drop, repair or other.");
    }
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.outOfService(tag, cause, said.reason(), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/to-inspection")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public UnitJson toInspection(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, EventBody body) {
    return plain(tag, match, body, happened -> care.toInspection(tag, happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/battery-judged")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public UnitJson packJudged(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, ReasonBody body) {
    ReasonBody said = needed(body);
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.packJudged(tag, said.reason(), happened));
  }

  @POST
  @Idempotent
  @Path("{tag}/retirement")
  @RolesAllowed(Roles.MANAGER)
  public UnitJson retire(
      @PathParam("tag") String tag, @HeaderParam("If-Match") String match, ReasonBody body) {
    ReasonBody said = needed(body);
    return event(
        tag,
        match,
        said.happenedAt(),
        said.lateReason(),
        happened -> care.retire(tag, said.reason(), happened));
  }

  private UnitJson plain(String tag, String match, EventBody body, Consumer<Happened> what) {
    EventBody said = body == null ? new EventBody(null, null) : body;
    return event(tag, match, said.happenedAt(), said.lateReason(), what);
  }

  private UnitJson event(
      String tag, String match, Instant at, String lateReason, Consumer<Happened> what) {
    UnitView unit = mine(tag);
    Refusals refusals = new Refusals();
    Happened happened = times.of(at, lateReason, locations.zone(unit.locationId()), refusals);
    refusals.throwIfAny();
    shelf.inVersion(tag, IfMatch.version(match), () -> what.accept(happened));
    return UnitJson.of(shelf.byTag(tag));
  }

  private UnitView mine(String tag) {
    UnitView unit = shelf.byTag(tag);
    signedIn.requireLocation(unit.locationId());
    return unit;
  }

  private Long spot(Long locationId, String name) {
    if (name == null || name.isBlank()) {
      return null;
    }
    return keeping.spots(locationId).stream()
        .filter(spot -> spot.name().equalsIgnoreCase(name.strip()))
        .map(SpotView::id)
        .findFirst()
        .orElseThrow(() -> new Malformed("spot", "There is no spot “" + name + "” there."));
  }

  private static <T> T needed(T body) {
    if (body == null) {
      throw new Malformed("body", "The call needs a body.");
    }
    return body;
  }
}
