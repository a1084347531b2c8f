package clinic.stimshelf.people;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
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
import java.time.LocalDate;
import java.util.List;
import java.util.function.BiConsumer;

/** Clearances, orders and consents as they are entered. */
@Path("/patients/{patient}/records")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.THERAPIST)
class RecordPages {
  @Inject PatientPages page;
  @Inject Clearances clearances;
  @Inject Orders orders;
  @Inject Consents consents;
  @Inject Patients patients;
  @Inject Muscles muscles;
  @Inject Locations locations;

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NewClearanceForm(
      PatientView patient,
      Form form,
      List<Option> questions,
      List<Option> muscles,
      List<Option> sides)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NewOrderForm(PatientView patient, Form form) implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NewConsentForm(
      PatientView patient,
      Form form,
      List<Option> kinds,
      List<Option> languages,
      List<Option> means)
      implements TemplateInstance {}

  @GET
  @Path("clearance")
  public TemplateInstance clearance(@PathParam("patient") String patient) {
    PatientView view = view(patient);
    return clearance(view, Form.empty().prefill("clearedOn", today(view)));
  }

  @POST
  @Path("clearance")
  public Response clear(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = view(patient);
    Form form = Form.of(typed);
    try {
      LocalDate on = form.optionalDay("clearedOn", "The day");
      LocalDate until = form.optionalDay("validUntil", "The last day");
      Side side = form.read("side", Side::of, one -> true, "Choose a side, or both.");
      form.throwIfWrong();
      clearances.record(
          new NewClearance(
              null,
              view.id(),
              form.value("question"),
              form.value("muscle"),
              side,
              form.value("clearedBy"),
              on,
              until,
              form.value("scope")));
      return PatientPages.see(view.id(), "clearance");
    } catch (Refusal refusal) {
      return PatientPages.answer(422, clearance(view, said(form, refusal)));
    }
  }

  @POST
  @Path("clearance/{id}/withdrawal")
  public Response withdrawClearance(
      @PathParam("patient") String patient,
      @PathParam("id") String id,
      MultivaluedMap<String, String> typed) {
    return withdraw(
        patient, typed, (who, reason) -> clearances.withdraw(who, Ids.of(id, "clearance"), reason));
  }

  @GET
  @Path("order")
  public TemplateInstance order(@PathParam("patient") String patient) {
    PatientView view = view(patient);
    return new NewOrderForm(view, Form.empty().prefill("orderedOn", today(view)));
  }

  @POST
  @Path("order")
  public Response ordered(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = view(patient);
    Form form = Form.of(typed);
    try {
      LocalDate on = form.optionalDay("orderedOn", "The day");
      LocalDate ends = form.optionalDay("endsOn", "The last day");
      form.throwIfWrong();
      orders.record(
          new NewOrder(
              null,
              view.id(),
              form.value("prescriber"),
              on,
              ends,
              form.value("ordered"),
              form.value("restrictions")));
      return PatientPages.see(view.id(), "order");
    } catch (Refusal refusal) {
      return PatientPages.answer(422, new NewOrderForm(view, said(form, refusal)));
    }
  }

  @POST
  @Path("order/{id}/withdrawal")
  public Response withdrawOrder(
      @PathParam("patient") String patient,
      @PathParam("id") String id,
      MultivaluedMap<String, String> typed) {
    return withdraw(
        patient, typed, (who, reason) -> orders.withdraw(who, Ids.of(id, "order"), reason));
  }

  @GET
  @Path("consent")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public TemplateInstance consent(@PathParam("patient") String patient) {
    PatientView view = view(patient);
    boolean minor = view.minorOn(today(view)) && view.guardianName() != null;
    return consent(
        view,
        Form.empty()
            .prefill("kind", "loan")
            .prefill("given", "yes")
            .prefill("textVersion", "1")
            .prefill("language", view.language().equals("es") ? "es" : "en")
            .prefill("signer", minor ? view.guardianName() : view.name())
            .prefill("relation", minor ? view.guardianRelation() : Consents.SELF)
            .prefill("means", "paper"));
  }

  @POST
  @Path("consent")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public Response consented(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    PatientView view = view(patient);
    Form form = Form.of(typed);
    try {
      ConsentKind kind =
          form.read("kind", ConsentKind::of, one -> true, "Choose what it is about.");
      Means means = form.read("means", Means::of, one -> true, "Choose paper or screen.");
      if (!form.value("given").matches("yes|no")) {
        form.wrong("given", "Choose whether it was given or refused.");
      }
      form.throwIfWrong();
      consents.record(
          new NewConsent(
              null,
              view.id(),
              kind,
              null,
              form.value("given").equals("yes"),
              form.value("textVersion"),
              form.has("language") ? form.value("language") : null,
              form.value("signer"),
              form.value("relation"),
              means,
              null,
              null));
      return PatientPages.see(view.id(), "consent");
    } catch (Refusal refusal) {
      return PatientPages.answer(422, consent(view, said(form, refusal)));
    }
  }

  private Response withdraw(
      String patient, MultivaluedMap<String, String> typed, BiConsumer<Long, String> step) {
    Long id = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      step.accept(id, form.value("reason"));
      return PatientPages.see(id, "withdrawn");
    } catch (Refusal refusal) {
      return page.again(id, form.refused(refusal));
    }
  }

  private NewClearanceForm clearance(PatientView patient, Form form) {
    return new NewClearanceForm(
        patient,
        form,
        clearances.clearable().values().stream()
            .map(question -> new Option(question.key(), question.ask()))
            .toList(),
        Choices.muscles(muscles),
        Choices.SIDES);
  }

  private static NewConsentForm consent(PatientView patient, Form form) {
    return new NewConsentForm(patient, form, Choices.CONSENTS, Choices.LANGUAGES, Choices.MEANS);
  }

  private PatientView view(String patient) {
    return patients.byId(Ids.of(patient, "patient"));
  }

  private LocalDate today(PatientView view) {
    return locations.today(view.locationId());
  }

  private static Form said(Form form, Refusal refusal) {
    return form.ok() ? form.refused(refusal) : form;
  }
}
