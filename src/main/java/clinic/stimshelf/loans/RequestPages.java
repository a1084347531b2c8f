package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.util.List;

/** Asking for a unit, setting one aside, and taking the wish back. */
@Path("/requests")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class RequestPages {
  private static final List<Option> PRIORITIES =
      List.of(new Option("2", "usual"), new Option("1", "urgent"), new Option("3", "can wait"));

  @Inject Requests requests;
  @Inject CheckOut checkOut;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RequestNew(
      SignedProgram program,
      PatientView patient,
      Form form,
      List<Option> priorities,
      List<Reason> refused)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RequestOne(
      RequestView request,
      SignedProgram program,
      PatientView patient,
      List<CheckOut.Look.UnitChoice> kits,
      Outlook outlook,
      Form form,
      LocalDate today,
      List<Reason> refused)
      implements TemplateInstance {}

  @GET
  @Path("new")
  public TemplateInstance begin(@QueryParam("program") String program) {
    return page(Form.empty().prefill("program", program), List.of());
  }

  @POST
  @Path("new")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response ask(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      LocalDate neededFrom = form.optionalDay("needed-from", "The day");
      Integer priority = form.optionalWhole("priority", "Priority", 1, 3);
      form.throwIfWrong();
      SignedProgram program = signed(form.value("program"));
      Long made =
          requests.ask(
              new NewRequest(program.programId(), neededFrom, priority, AgreementText.VERSION));
      return Response.seeOther(URI.create("/requests/" + made)).build();
    } catch (Refusal refusal) {
      return Response.ok(page(form, refusal.reasons())).build();
    }
  }

  @GET
  @Path("{id}")
  public TemplateInstance show(@PathParam("id") String id) {
    return page(mine(id), Form.empty(), List.of());
  }

  @POST
  @Path("{id}/unit")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response reserve(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(
        id,
        typed,
        (request, form) -> {
          if (form.has("unit")) {
            requests.reserve(request, form.value("unit"));
          } else {
            requests.unreserve(request);
          }
        });
  }

  @POST
  @Path("{id}/withdrawal")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response withdraw(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return act(id, typed, (request, form) -> requests.withdraw(request, form.value("reason")));
  }

  private interface Act {
    void run(Long request, Form form);
  }

  private Response act(String id, MultivaluedMap<String, String> typed, Act act) {
    Form form = Form.of(typed);
    Long request = mine(id);
    try {
      act.run(request, form);
      return Response.seeOther(URI.create("/requests/" + request)).build();
    } catch (Refusal refusal) {
      return Response.ok(page(request, form, refusal.reasons())).build();
    } catch (InUse inUse) {
      return Response.ok(page(request, form, List.of(new Reason("unit", inUse.getMessage(), null))))
          .build();
    }
  }

  private TemplateInstance page(Form form, List<Reason> refused) {
    SignedProgram program = signed(form.value("program"));
    form.prefill("needed-from", program.startsOn());
    return new RequestNew(program, patients.byId(program.patientId()), form, PRIORITIES, refused);
  }

  private TemplateInstance page(Long id, Form form, List<Reason> refused) {
    RequestView request = requests.byId(id);
    SignedProgram program = signed(request.programId());
    return new RequestOne(
        request,
        program,
        patients.byId(program.patientId()),
        checkOut.kits(program),
        request.state() == RequestState.OPEN || request.state() == RequestState.RESERVED
            ? requests.outlook(id)
            : null,
        form,
        locations.today(program.locationId()),
        refused);
  }

  private Long mine(String id) {
    Long request = Ids.of(id, "request");
    signedIn.requireLocation(requests.locationOf(request));
    return request;
  }

  private SignedProgram signed(String id) {
    SignedProgram program =
        programs
            .signed(Ids.of(id, "program"))
            .orElseThrow(() -> new NotFound("There is no signed program with this number."));
    signedIn.requireLocation(program.locationId());
    return program;
  }
}
