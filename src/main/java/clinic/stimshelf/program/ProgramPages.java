package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import io.quarkus.arc.All;
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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/** A program: how it stands, what follows from it, and what can be done with it. */
@Path("/programs")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class ProgramPages {
  static final MediaType HTML = MediaType.TEXT_HTML_TYPE.withCharset("UTF-8");

  private static final int NEWEST = 14;
  private static final int MORE = 200;

  @Inject Programs programs;
  @Inject Holds holds;
  @Inject EndDecisions ends;
  @Inject SessionLogs sessions;
  @Inject ProgramDesk desk;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject @All List<NextSteps> steps;

  /**
   * A program's page.
   *
   * @param mayWrite whether the person is a therapist
   * @param version the version shown
   * @param logs the newest sessions
   * @param earlier some more of them, folded away
   * @param over whether the day of its last session is past
   */
  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProgramPage(
      ProgramView program,
      PatientView patient,
      ZoneId zone,
      String stands,
      List<ProgramLines.Line> dose,
      List<ProgramDesk.Screened> screened,
      String order,
      OutlookView outlook,
      Adherence adherence,
      List<SessionView> logs,
      List<SessionView> earlier,
      List<NextSteps.Step> next,
      List<TrailEntry> trail,
      boolean mayWrite,
      boolean draft,
      boolean running,
      boolean over,
      Form form,
      List<Option> outcomes,
      List<Option> sources,
      List<Option> colleagues,
      List<Option> holdReasons,
      EndDecisions.View end,
      List<Option> endChoices)
      implements TemplateInstance {}

  @GET
  @Path("{id:\\d+}")
  public TemplateInstance one(@PathParam("id") String id) {
    return page(ProgramsApi.id(id), Form.empty());
  }

  @POST
  @Path("{id:\\d+}/sign")
  @RolesAllowed(Roles.THERAPIST)
  public Response sign(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            programs.sign(
                ProgramsApi.id(id),
                form.optionalWhole("version", "The version", 1, 1_000_000),
                form.ticked("reviewed"),
                form.read("dueKind", DueWords::kind, kind -> true, "Choose one of the three."),
                EventTime.NOW));
  }

  @POST
  @Path("{id:\\d+}/first-session")
  @RolesAllowed(Roles.THERAPIST)
  public Response firstSession(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            programs.firstSession(
                ProgramsApi.id(id), form.optionalText("words", "The words", 500), at(id, form)));
  }

  @POST
  @Path("{id:\\d+}/setting")
  @RolesAllowed(Roles.THERAPIST)
  public Response setting(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> {
          String tag = form.text("unitTag", "The unit’s tag", 32);
          form.throwIfWrong();
          programs.confirmSetting(ProgramsApi.id(id), tag, form.ticked("agrees"), EventTime.NOW);
        });
  }

  @POST
  @Path("{id:\\d+}/pause")
  @RolesAllowed(Roles.THERAPIST)
  public Response pause(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            programs.pause(
                ProgramsApi.id(id),
                form.optionalDay("from", "The first day"),
                form.optionalDay("to", "The last day"),
                form.value("reason")));
  }

  @POST
  @Path("{id:\\d+}/resume")
  @RolesAllowed(Roles.THERAPIST)
  public Response resume(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> programs.resume(ProgramsApi.id(id), form.optionalDay("from", "The day")));
  }

  @POST
  @Path("{id:\\d+}/extend")
  @RolesAllowed(Roles.THERAPIST)
  public Response extend(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> {
          int weeks = form.whole("moreWeeks", "More weeks", 1, 52);
          form.throwIfWrong();
          programs.extend(
              ProgramsApi.id(id),
              weeks,
              null,
              form.value("reason"),
              form.ticked("reviewed"),
              EventTime.NOW);
        });
  }

  @POST
  @Path("{id:\\d+}/stop")
  @RolesAllowed(Roles.THERAPIST)
  public Response stop(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            programs.stop(
                ProgramsApi.id(id), form.value("reason"), form.ticked("abandoned"), EventTime.NOW));
  }

  @POST
  @Path("{id:\\d+}/hand-over")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response handOver(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            programs.handOver(
                ProgramsApi.id(id),
                form.read("therapistId", Long::valueOf, one -> true, "Choose a colleague.")));
  }

  @POST
  @Path("{id:\\d+}/hold")
  public Response hold(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> {
          HoldReason why =
              form.read("holdReason", HoldReason::of, one -> true, "Choose what happened.");
          String words = form.optionalText("words", "The words", 500);
          form.throwIfWrong();
          holds.hold(ProgramsApi.id(id), why, words, at(id, form));
        });
  }

  @POST
  @Path("{id:\\d+}/end-decision")
  @RolesAllowed(Roles.THERAPIST)
  public Response endDecision(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> {
          EndChoice choice = form.read("choice", EndChoice::of, one -> true, "Choose how it ends.");
          String words = form.optionalText("words", "The words", 500);
          form.throwIfWrong();
          ends.decide(ProgramsApi.id(id), choice, words, EventTime.NOW);
        });
  }

  @POST
  @Path("{id:\\d+}/release")
  @RolesAllowed(Roles.THERAPIST)
  public Response release(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id, typed, form -> holds.release(ProgramsApi.id(id), form.value("words"), EventTime.NOW));
  }

  @POST
  @Path("{id:\\d+}/sessions")
  @RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK})
  public Response log(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form -> {
          NewSession told =
              new NewSession(
                  form.optionalDay("on", "The day"),
                  form.optionalWhole("number", "The number of the day", 1, 24),
                  form.read("outcome", Outcome::of, one -> true, "Choose how it went."),
                  form.read("source", LogSource::of, one -> true, "Choose how it is known."),
                  form.optionalWhole("contractions", "Contractions", 0, 10_000),
                  form.optionalText("intensity", "The intensity", 120),
                  form.optionalText("pads", "The words on the pads", 300),
                  form.optionalText("skin", "The words on the skin", 300),
                  form.ticked("padsTrouble"),
                  form.ticked("skinTrouble"),
                  form.optionalText("note", "The note", 500));
          form.throwIfWrong();
          sessions.log(ProgramsApi.id(id), told, EventTime.NOW);
        });
  }

  @POST
  @Path("{id:\\d+}/sessions/{session}/void")
  @RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK})
  public Response voided(
      @PathParam("id") String id,
      @PathParam("session") String session,
      MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        form ->
            sessions.voided(ProgramsApi.id(id), ProgramsApi.id(session), form.value("voidReason")));
  }

  private Response act(String id, MultivaluedMap<String, String> typed, Consumer<Form> action) {
    Form form = Form.of(typed);
    try {
      action.accept(form);
      form.throwIfWrong();
      return Response.seeOther(URI.create("/programs/" + ProgramsApi.id(id))).build();
    } catch (clinic.stimshelf.web.Refusal refusal) {
      Form again = form.ok() ? form.refused(refusal) : form;
      return Response.status(422)
          .type(HTML)
          .entity(page(ProgramsApi.id(id), again).render())
          .build();
    }
  }

  /** The first session may be entered late: a day and time, and why. */
  private EventTime at(String id, Form form) {
    java.time.LocalDateTime when = form.optionalDayAndTime("happenedAt", "The time");
    ZoneId zone =
        locations.zone(locations.byCode(programs.byId(ProgramsApi.id(id)).location()).id());
    return new EventTime(
        when == null ? null : when.atZone(zone).toInstant(), form.value("lateReason"));
  }

  private ProgramPage page(Long id, Form form) {
    ProgramView program = programs.byId(id);
    PatientView patient = patients.byId(program.patientId());
    Long location = locations.byCode(program.location()).id();
    ZoneId zone = locations.zone(location);
    boolean running =
        program.state() == ProgramState.SIGNED
            || program.state() == ProgramState.PAUSED
            || program.state() == ProgramState.HELD;
    List<SessionView> logs = sessions.of(id);
    form.prefill("version", program.version());
    form.prefill("dueKind", program.dueKind());
    return new ProgramPage(
        program,
        patient,
        zone,
        ProgramLines.state(program, zone),
        ProgramLines.dose(program),
        desk.screened(patient.id(), location, desk.content(id)),
        desk.order(patient.id(), location),
        desk.outlook(id, program.version()),
        sessions.adherence(id),
        logs.stream().limit(NEWEST).toList(),
        logs.stream().skip(NEWEST).limit(MORE).toList(),
        running || program.state() == ProgramState.STOPPED
            ? programs.signed(id).stream()
                .flatMap(signed -> steps.stream().flatMap(one -> one.of(signed).stream()))
                .toList()
            : List.of(),
        signedIn.has(Roles.MANAGER) ? trail.of(Subject.of("program", id)) : List.of(),
        signedIn.has(Roles.THERAPIST),
        program.versionState() == VersionState.DRAFT,
        running,
        running
            && program.lastSessionOn() != null
            && program.lastSessionOn().isBefore(locations.today(location)),
        form,
        Arrays.stream(Outcome.values()).map(one -> new Option(one.word(), one.word())).toList(),
        Arrays.stream(LogSource.values())
            .filter(one -> one != LogSource.PATIENT)
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        desk.colleagues(location, program.therapistId()),
        Arrays.stream(HoldReason.values()).map(one -> new Option(one.word(), one.words())).toList(),
        ends.of(id).orElse(null),
        Arrays.stream(EndChoice.values()).map(one -> new Option(one.word(), one.words())).toList());
  }
}
