package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The shelf, a unit with what can be done with it, its inspection. */
@Path("/units")
@Produces(MediaType.TEXT_HTML)
@Blocking
@Retried
class UnitPages {
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject ShelfKeeping keeping;
  @Inject ShelfPictures pictures;
  @Inject UnitHistories histories;
  @Inject SoilingRules soilingRules;
  @Inject Checklist checklist;
  @Inject Locations locations;
  @Inject EventTimes times;
  @Inject NeededHere needed;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** The forms of a page by name: each keeps what was typed into it and nothing else. */
  record Forms(String name, Form form) {
    static final Forms NONE = new Forms("", Form.empty());

    public Form of(String wanted) {
      return name.equals(wanted) ? form : Form.empty();
    }

    public boolean open(String wanted) {
      return name.equals(wanted);
    }
  }

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitList(
      String place,
      ZoneId zone,
      Instant now,
      ShelfPicture picture,
      List<UnitView> units,
      Map<Long, NeededHere.LentUntil> lentUntil,
      Form form,
      List<Option> states,
      List<Option> kinds,
      String done,
      boolean manager)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitOne(
      UnitView unit,
      ZoneId zone,
      String place,
      boolean late,
      List<Reason> against,
      NeededHere.LentUntil lentUntil,
      UnitHistory history,
      UnitTimeline timeline,
      Forms forms,
      List<Option> products,
      List<Option> soilings,
      List<Option> spots,
      List<Option> places,
      List<Option> purposes,
      List<Option> causes,
      String done,
      boolean mayInspect,
      boolean manager)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitInspection(UnitView unit, List<String> parts, List<Checklist.Item> items, Form form)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public TemplateInstance list(
      @QueryParam("state") String state,
      @QueryParam("kind") String kind,
      @QueryParam("done") String done) {
    Long locationId = signedIn.locationOr(null);
    LocationView place = locations.byId(locationId);
    List<UnitView> all = shelf.fleet(List.of(locationId));
    List<UnitView> inFleet =
        all.stream().filter(unit -> unit.state() != UnitState.RETIRED).toList();
    Form form = Form.empty().prefill("state", state).prefill("kind", kind);
    boolean narrowed = form.has("state");
    List<UnitView> shown =
        (narrowed ? all : inFleet)
            .stream()
                .filter(unit -> !narrowed || unit.state().word().equals(form.value("state")))
                .filter(unit -> !form.has("kind") || unit.kind().equals(form.value("kind")))
                .toList();
    return new UnitList(
        place.name(),
        place.zone(),
        clock.instant(),
        pictures.of(locationId, inFleet),
        shown,
        needed.lentUntil(locationId),
        form,
        Arrays.stream(UnitState.values()).map(s -> new Option(s.word(), s.words())).toList(),
        keeping.kinds().stream().map(k -> new Option(k.code(), k.name())).toList(),
        "added".equals(done) ? "The unit is added. Print its tags, then inspect it." : "",
        signedIn.has(Roles.MANAGER));
  }

  @GET
  @Path("{tag}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public TemplateInstance one(@PathParam("tag") String tag, @QueryParam("done") String done) {
    return page(mine(tag), Forms.NONE, done == null ? "" : DONE.getOrDefault(done, ""));
  }

  private static final Map<String, String> DONE =
      Map.ofEntries(
          Map.entry("wiped", "Wiped. It counts once the contact time has passed."),
          Map.entry(
              "soiled",
              "Entered. Close the kit in a bag, keep it apart, and wipe it as said here."),
          Map.entry("not-soiled", "Taken off again. The unit is still to be wiped."),
          Map.entry("inspected", "Inspected, all fine."),
          Map.entry("failed", "Inspected, not fine: see the reason below."),
          Map.entry("charging", "On the charger."),
          Map.entry("charged", "Entered as charged."),
          Map.entry("tested", "The safety test is entered."),
          Map.entry("out", "Out of service. Tag it, so that nobody takes it."),
          Map.entry("trouble", "The trouble is entered."),
          Map.entry("to-inspection", "To inspect: the next step is the checklist."),
          Map.entry("missing", "Entered as missing. The loan goes on until it is ended."),
          Map.entry("found", "Entered as found. Wipe it, then inspect it."),
          Map.entry("retired", "Retired. Its history stays."),
          Map.entry("reserved", "Held."),
          Map.entry("released", "Released."),
          Map.entry("moved", "Moved."),
          Map.entry("changed", "Changed."),
          Map.entry("added", "Added. Print its tags, then inspect it."));

  @POST
  @Path("{tag}/wiped")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response wiped(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "wiped",
        typed,
        (form, at) ->
            care.wiped(tag, form.value("product"), form.optionalText("note", "The note", 500), at));
  }

  @POST
  @Path("{tag}/soiled")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response soiled(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "soiled", typed, (form, at) -> care.soiled(tag, chosen(form), at));
  }

  @POST
  @Path("{tag}/not-soiled")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response notSoiled(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag, "not-soiled", typed, (form, at) -> care.notSoiled(tag, form.value("reason"), at));
  }

  private static Set<Soiling> chosen(Form form) {
    return Arrays.stream(Soiling.values())
        .filter(one -> form.ticked("soiling-" + one.word()))
        .collect(Collectors.toSet());
  }

  @POST
  @Path("{tag}/charging")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response charging(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "charging", typed, (form, at) -> care.charging(tag, at));
  }

  @POST
  @Path("{tag}/charged")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response charged(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "charged", typed, (form, at) -> care.charged(tag, at));
  }

  @POST
  @Path("{tag}/safety-test")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response tested(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "tested",
        typed,
        (form, at) -> {
          LocalDate testedOn = form.day("testedOn", "The day of the test");
          LocalDate next = form.optionalDay("nextDueOn", "The next test");
          if (!form.has("result")) {
            form.wrong("result", "Say whether the unit passed.");
          }
          form.throwIfWrong();
          care.tested(
              tag,
              new UnitCare.NewTest(
                  testedOn,
                  form.chosen("result", "passed"),
                  next,
                  form.value("tester"),
                  form.value("certificate"),
                  form.value("note")),
              at);
        });
  }

  @POST
  @Path("{tag}/trouble")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response trouble(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "trouble",
        typed,
        (form, at) ->
            care.trouble(
                tag,
                form.ticked("swollen")
                    ? FaultKind.SWOLLEN
                    : form.ticked("dropped") ? FaultKind.DROP : FaultKind.FAULT,
                form.value("words"),
                at));
  }

  @POST
  @Path("{tag}/out-of-service")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response outOfService(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "out",
        typed,
        (form, at) -> {
          UnitCare.Cause cause = UnitCare.Cause.byWord(form.value("cause"));
          if (cause == null) {
            form.wrong("cause", "Choose why.");
          }
          form.throwIfWrong();
          care.outOfService(tag, cause, form.value("reason"), at);
        });
  }

  @POST
  @Path("{tag}/to-inspection")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response toInspection(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "to-inspection", typed, (form, at) -> care.toInspection(tag, at));
  }

  @POST
  @Path("{tag}/battery-judged")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response packJudged(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag, "to-inspection", typed, (form, at) -> care.packJudged(tag, form.value("reason"), at));
  }

  @POST
  @Path("{tag}/missing")
  @RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
  public Response missing(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "missing", typed, (form, at) -> care.missing(tag, form.value("reason"), at));
  }

  @POST
  @Path("{tag}/found")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response found(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "found", typed, (form, at) -> care.found(tag, at));
  }

  @POST
  @Path("{tag}/retire")
  @RolesAllowed(Roles.MANAGER)
  public Response retire(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "retired", typed, (form, at) -> care.retire(tag, form.value("reason"), at));
  }

  @POST
  @Path("{tag}/reserve")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response reserve(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "reserved",
        typed,
        (form, at) -> shelf.hold(shelf.byTag(tag).id(), form.value("for"), at));
  }

  @POST
  @Path("{tag}/release")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response release(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(tag, "released", typed, (form, at) -> shelf.release(shelf.byTag(tag).id(), at));
  }

  @POST
  @Path("{tag}/move")
  @RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
  public Response move(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "moved",
        typed,
        (form, at) -> {
          UnitView unit = shelf.byTag(tag);
          Long to =
              form.has("place") ? signedIn.locationOr(form.value("place")) : unit.locationId();
          Long spot =
              to.equals(unit.locationId())
                  ? form.read("spot", Long::valueOf, id -> true, "Choose a spot of the list.")
                  : null;
          form.throwIfWrong();
          keeping.move(tag, to, spot, at);
        });
  }

  @POST
  @Path("{tag}/change")
  @RolesAllowed(Roles.MANAGER)
  public Response change(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    return act(
        tag,
        "changed",
        typed,
        (form, at) -> {
          Integer counter = form.optionalWhole("useCounter", "The use counter", 0, 100_000_000);
          String owner = form.optionalText("ownerWords", "The owner's words", 200);
          form.throwIfWrong();
          keeping.change(tag, form.value("purpose"), owner, counter, at);
        });
  }

  @GET
  @Path("{tag}/inspection")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public TemplateInstance inspection(
      @PathParam("tag") String tag, @QueryParam("back") String back) {
    return new UnitInspection(
        mine(tag), Checklist.PARTS, checklist.items(), Form.empty().prefill("back", back));
  }

  @POST
  @Path("{tag}/inspected")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response inspected(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    UnitView unit = mine(tag);
    Form form = Form.of(typed);
    try {
      Map<String, Boolean> answers = new TreeMap<>();
      for (Checklist.Item item : checklist.items()) {
        String name = item.field();
        if (form.chosen(name, "yes") || form.chosen(name, "no")) {
          answers.put(item.key(), form.chosen(name, "yes"));
        }
      }
      Happened at = When.of(form, locations.zone(unit.locationId()), times);
      boolean passed =
          care.inspected(tag, answers, form.value("note"), form.chosen("then", "to-inspect"), at);
      return Back.to(form, "/units/" + unit.tag() + "?done=" + (passed ? "inspected" : "failed"));
    } catch (Refusal refusal) {
      return Back.again(
          422,
          new UnitInspection(
              unit, Checklist.PARTS, checklist.items(), form.ok() ? form.refused(refusal) : form));
    }
  }

  private interface Act {
    void run(Form form, Happened at);
  }

  private Response act(String tag, String name, MultivaluedMap<String, String> typed, Act act) {
    UnitView unit = mine(tag);
    Form form = Form.of(typed);
    try {
      Happened at = When.of(form, locations.zone(unit.locationId()), times);
      act.run(form, at);
      return Back.to(form, "/units/" + unit.tag() + "?done=" + name);
    } catch (Refusal refusal) {
      Form kept = form.ok() ? form.refused(refusal) : form;
      return Back.again(422, page(mine(tag), new Forms(name, kept), ""));
    } catch (InUse inUse) {
      form.wrong("state", inUse.getMessage());
      return Back.again(409, page(mine(tag), new Forms(name, form), ""));
    }
  }

  private UnitView mine(String tag) {
    UnitView unit = shelf.byTag(tag);
    signedIn.requireLocation(unit.locationId());
    return unit;
  }

  private UnitOne page(UnitView unit, Forms forms, String done) {
    LocationView place = locations.byId(unit.locationId());
    Instant now = clock.instant();
    UnitHistory history = histories.of(unit.tag());
    List<Reason> against =
        unit.use() == null && unit.state() != UnitState.RETIRED
            ? shelf.whyNotReadyToLeave(unit.id(), null, now)
            : List.of();
    boolean manager = signedIn.has(Roles.MANAGER);
    return new UnitOne(
        unit,
        place.zone(),
        place.name(),
        unit.lateAt(now),
        against,
        needed.lentUntil(unit.locationId()).get(unit.id()),
        history,
        UnitTimeline.of(history.lines(), now, place.zone()),
        forms,
        soilingRules.allowed(unit.soiling()).stream()
            .map(p -> new Option(p.key(), p.name() + ", " + p.contactMinutes() + " min"))
            .toList(),
        Arrays.stream(Soiling.values())
            .map(s -> new Option("soiling-" + s.word(), s.words()))
            .toList(),
        keeping.spots(unit.locationId()).stream()
            .map(spot -> new Option(String.valueOf(spot.id()), spot.name()))
            .toList(),
        locations.all().stream()
            .filter(one -> signedIn.mayActAt(one.id()))
            .map(one -> new Option(one.code(), one.name()))
            .toList(),
        Arrays.stream(Purpose.values()).map(p -> new Option(p.word(), p.words())).toList(),
        Stream.of(
                new Option("fault", "does not work as it should"),
                new Option("drop", "was dropped or got wet: needs a new safety test"),
                new Option("swollen", "battery is swollen, hot or leaking"),
                new Option("repair", "goes to repair: needs a new safety test after it"),
                new Option("other", "other reason"))
            .toList(),
        done,
        manager || signedIn.has(Roles.THERAPIST),
        manager);
  }
}
