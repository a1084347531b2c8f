package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
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
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.DayOfWeek;
import java.time.format.TextStyle;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Writing a program: what the source says, what the therapist changes, what follows from it. */
@Path("/programs")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.THERAPIST)
@Blocking
class ProgramEditorPages {
  @Inject Programs programs;
  @Inject ProgramDesk desk;
  @Inject Templates templates;
  @Inject PadFacts padFacts;
  @Inject Patients patients;
  @Inject Muscles muscles;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A template in the list to choose from. */
  record TemplateLine(
      String key, String title, String source, String muscle, int blanks, String start) {}

  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record TemplateChoice(PatientView patient, Long programId, List<TemplateLine> lines)
      implements TemplateInstance {}

  /**
   * The form.
   *
   * @param programId {@code null} for a new program
   * @param mayWeSign whether the person is a licensed PT today
   */
  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProgramEditor(
      PatientView patient,
      Long programId,
      boolean wasSigned,
      boolean mayWeSign,
      Template template,
      Form form,
      List<DoseLine> session,
      List<DoseLine> strength,
      List<DoseLine> course,
      List<Option> muscles,
      List<Option> sides,
      List<Option> pads,
      List<Option> weekdays,
      List<ProgramDesk.Screened> screened,
      String order,
      OutlookView outlook)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OutlookPart(OutlookView outlook, Form form) implements TemplateInstance {}

  @GET
  @Path("new")
  public TemplateInstance blank(
      @QueryParam("patient") String patient, @QueryParam("template") String template) {
    PatientView person = patients.byId(ProgramsApi.id(String.valueOf(patient)));
    signedIn.requireLocation(person.locationId());
    return template == null ? choice(person, null) : begin(person, null, template);
  }

  @POST
  @Path("new")
  public Response write(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    PatientView person = patients.byId(ProgramsApi.id(form.value("patient")));
    signedIn.requireLocation(person.locationId());
    return save(person, null, form);
  }

  @GET
  @Path("{id:\\d+}/edit")
  public TemplateInstance edit(
      @PathParam("id") String id,
      @QueryParam("template") String template,
      @QueryParam("choose") String choose) {
    ProgramView program = programs.byId(ProgramsApi.id(id));
    PatientView person = patients.byId(program.patientId());
    if (choose != null) {
      return choice(person, program.id());
    }
    if (template != null) {
      return begin(person, program.id(), template);
    }
    Content content = desk.content(program.id());
    Form form = ProgramForm.fill(withWeekdays(content), content);
    form.prefill("version", program.version());
    return editor(person, program.id(), form, content);
  }

  @POST
  @Path("{id:\\d+}/edit")
  public Response rewrite(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    ProgramView program = programs.byId(ProgramsApi.id(id));
    return save(patients.byId(program.patientId()), program.id(), Form.of(typed));
  }

  /** What follows from what stands in the form, for the page while it is typed. */
  @POST
  @Path("preview")
  public TemplateInstance preview(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    PatientView person = patients.byId(ProgramsApi.id(form.value("patient")));
    signedIn.requireLocation(person.locationId());
    Long program = form.has("program") ? ProgramsApi.id(form.value("program")) : null;
    return new OutlookPart(
        desk.outlook(person.id(), place(person, program), program, ProgramForm.read(form)), form);
  }

  private Response save(PatientView person, Long programId, Form form) {
    Content content = ProgramForm.read(form);
    String action = form.value("do");
    try {
      if (action.equals("show")) {
        return html(200, editor(person, programId, form, content));
      }
      form.throwIfWrong();
      boolean sign = action.equals("sign");
      boolean reviewed = form.ticked("reviewed");
      ProgramView made =
          programId == null
              ? programs.write(person.id(), content, sign, reviewed)
              : programs.rewrite(
                  programId,
                  form.optionalWhole("version", "The version", 1, 1_000_000),
                  content,
                  form.value("reason"),
                  sign,
                  reviewed);
      return Response.seeOther(URI.create("/programs/" + made.id())).build();
    } catch (Refusal refusal) {
      return html(
          422, editor(person, programId, form.ok() ? form.refused(refusal) : form, content));
    } catch (Stale stale) {
      form.wrong("version", stale.getMessage());
      return html(409, editor(person, programId, form, content));
    }
  }

  private TemplateInstance choice(PatientView person, Long programId) {
    return new TemplateChoice(
        person,
        programId,
        templates.all().stream()
            .map(
                one ->
                    new TemplateLine(
                        one.key(),
                        one.title(),
                        one.source(),
                        muscles.muscle(one.muscle()).english(),
                        one.blanks().size(),
                        one.start()))
            .toList());
  }

  /** A form with the values of a template, or an empty one for "none". */
  private TemplateInstance begin(PatientView person, Long programId, String key) {
    Form form = Form.empty();
    Template template = templates.find(key).orElse(null);
    if (template != null) {
      form.prefill("template", template.key()).prefill("muscle", template.muscle());
      template
          .dose()
          .asMap()
          .forEach((field, value) -> form.prefill(field.key(), field.typed(value)));
    }
    if (programId != null) {
      ProgramView now = programs.byId(programId);
      Content old = desk.content(programId);
      form.prefill("version", now.version()).prefill("startsOn", now.startsOn());
      ProgramForm.fill(
          form,
          new Content(
              template == null ? null : template.key(),
              DoseValues.none(),
              old.weekdays(),
              old.startsOn(),
              old.placements(),
              old.pads(),
              old.dueKind(),
              old.setting(),
              old.cautions(),
              old.instructions()));
    }
    return editor(person, programId, form, ProgramForm.read(form));
  }

  private ProgramEditor editor(PatientView person, Long programId, Form form, Content content) {
    Template template = templates.find(content.template()).orElse(null);
    Long location = place(person, programId);
    return new ProgramEditor(
        person,
        programId,
        programId != null && programs.byId(programId).signedVersion() != null,
        signedIn.mayLicensedPt(locations.today(location)),
        template,
        form,
        DoseLine.of(DoseLine.SESSION, template, content.dose()),
        DoseLine.of(DoseLine.STRENGTH, template, content.dose()),
        DoseLine.of(DoseLine.COURSE, template, content.dose()),
        muscles.all().stream().map(one -> new Option(one.key(), one.english())).toList(),
        Arrays.stream(Side.values()).map(one -> new Option(one.word(), one.words("en"))).toList(),
        padFacts.offered().stream()
            .map(one -> new Option(one.code(), one.name() + " (" + one.code() + ")"))
            .toList(),
        Arrays.stream(DayOfWeek.values())
            .map(
                day ->
                    new Option(
                        day.name().toLowerCase(Locale.ROOT),
                        day.getDisplayName(TextStyle.SHORT, Locale.US)))
            .toList(),
        desk.screened(person.id(), location, content),
        desk.order(person.id(), location),
        desk.outlook(person.id(), location, programId, content));
  }

  private Long place(PatientView person, Long programId) {
    return programId == null
        ? person.locationId()
        : locations.byCode(programs.byId(programId).location()).id();
  }

  private static Form withWeekdays(Content content) {
    MultivaluedMap<String, String> typed = new MultivaluedHashMap<>();
    typed.put("weekdays", ProgramForm.weekdays(content));
    return Form.of(typed);
  }

  private static Response html(int status, TemplateInstance page) {
    return Response.status(status).type(ProgramPages.HTML).entity(page.render()).build();
  }
}
