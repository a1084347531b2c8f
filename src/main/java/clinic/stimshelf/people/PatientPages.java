package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
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
import java.net.URI;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;

/** Finding, adding, changing and looking at a patient. */
@Path("/patients")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class PatientPages {
  @Inject Patients patients;
  @Inject Screenings screenings;
  @Inject Intakes intakes;
  @Inject Clearances clearances;
  @Inject Orders orders;
  @Inject Consents consents;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject @Any Instance<PatientMatters> matters;

  /** A part of the page that a lower room fills. */
  record Part(String heading, List<Matter> matters, Matter start) {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PatientSearch(Form form, Page<PatientView> found) implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PatientEntry(
      PatientView patient,
      Form form,
      List<Option> places,
      List<Option> languages,
      List<Option> ways)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "people", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PatientPage(
      PatientView patient,
      String language,
      LocalDate today,
      ZoneId zone,
      List<Part> parts,
      IntakeView intake,
      List<Screenings.Area> areas,
      List<ClearanceView> clearances,
      List<OrderView> orders,
      List<ConsentView> consents,
      List<TrailEntry> trail,
      boolean therapist,
      boolean manager,
      Form form,
      String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance start() {
    return new PatientSearch(Form.empty(), null);
  }

  /** By POST, so that no name stands in an address. */
  @POST
  @Path("find")
  public Response find(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Page<PatientView> found = null;
    try {
      int page = Math.max(0, form.has("page") ? Integer.parseInt(form.value("page")) : 0);
      found = patients.find(form.value("q"), Paging.of(page, 25));
    } catch (Malformed nothing) {
      form.wrong("q", nothing.getMessage());
    } catch (NumberFormatException notAPage) {
      form.wrong("q", "Search again.");
    }
    if (found != null && found.total() == 1) {
      return see(found.items().get(0).id(), null);
    }
    return answer(form.ok() ? 200 : 422, new PatientSearch(form, found));
  }

  @GET
  @Path("new")
  public TemplateInstance blank() {
    return entry(null, Form.empty().prefill("language", "en").prefill("reachBy", "text"));
  }

  @POST
  public Response add(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      return see(patients.add(read(form, null)), "added");
    } catch (Refusal refusal) {
      return answer(422, entry(null, form.refused(refusal)));
    }
  }

  @GET
  @Path("{id}/edit")
  public TemplateInstance edit(@PathParam("id") String id) {
    PatientView view = patients.byId(Ids.of(id, "patient"));
    Form form =
        Form.empty()
            .prefill("version", view.version())
            .prefill("location", locations.byId(view.locationId()).code())
            .prefill("chartNumber", view.chartNumber())
            .prefill("name", view.name())
            .prefill("birthDate", view.birthDate())
            .prefill("guardianName", view.guardianName())
            .prefill("guardianRelation", view.guardianRelation())
            .prefill("language", view.language())
            .prefill("interpreter", view.interpreter())
            .prefill("reachBy", view.reachBy().word())
            .prefill("phone", view.phone())
            .prefill("email", view.email())
            .prefill("address", view.address())
            .prefill("remindersAllowed", view.remindersAllowed())
            .prefill("diedOn", view.diedOn());
    return entry(view, form);
  }

  @POST
  @Path("{id}/edit")
  public Response change(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    PatientView view = patients.byId(Ids.of(id, "patient"));
    Form form = Form.of(typed);
    try {
      Integer version = form.optionalWhole("version", "The version", 0, Integer.MAX_VALUE);
      patients.change(view.id(), version, read(form, view.id()));
      return see(view.id(), "changed");
    } catch (Refusal refusal) {
      return answer(422, entry(view, form.refused(refusal)));
    } catch (Stale stale) {
      form.wrong(null, stale.getMessage());
      return answer(412, entry(view, form));
    }
  }

  @POST
  @Path("{id}/death")
  public Response died(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return death(
        id, typed, form -> patients.died(Ids.of(id, "patient"), form.optionalDay("diedOn", "Day")));
  }

  @POST
  @Path("{id}/death/withdrawal")
  public Response deathWithdrawn(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return death(
        id,
        typed,
        form -> patients.deathWithdrawn(Ids.of(id, "patient"), form.value("deathReason")));
  }

  private Response death(String id, MultivaluedMap<String, String> typed, Consumer<Form> step) {
    Form form = Form.of(typed);
    Long patient = Ids.of(id, "patient");
    try {
      step.accept(form);
      form.throwIfWrong();
      return see(patient, "changed");
    } catch (Refusal refusal) {
      return again(patient, form.ok() ? form.refused(refusal) : form);
    }
  }

  @GET
  @Path("{id}")
  public TemplateInstance page(@PathParam("id") String id, @QueryParam("done") String done) {
    return show(Ids.of(id, "patient"), Form.empty(), done(done));
  }

  /** The page again, with what stood against the last step. */
  Response again(Long id, Form form) {
    return answer(422, show(id, form, ""));
  }

  private PatientPage show(Long id, Form form, String done) {
    PatientView view = patients.byId(id);
    LocalDate today = locations.today(view.locationId());
    boolean manager = signedIn.has(Roles.MANAGER);
    return new PatientPage(
        view,
        Choices.language(view.language()),
        today,
        locations.zone(view.locationId()),
        parts(view.id()),
        intakes.latest(view.id(), null).orElse(null),
        screenings.areas(view.id(), today),
        clearances.of(view.id()),
        orders.of(view.id()),
        consents.of(view.id()),
        manager ? trail.of(Patients.subject(view.id())) : List.of(),
        signedIn.has(Roles.THERAPIST),
        manager,
        form,
        done);
  }

  private List<Part> parts(Long id) {
    return matters.stream()
        .sorted(Comparator.comparingInt(PatientMatters::order))
        .map(one -> part(one, id))
        .filter(Objects::nonNull)
        .toList();
  }

  private static Part part(PatientMatters room, Long id) {
    List<Matter> found = room.of(id);
    return found.isEmpty() && room.onlyIfAny()
        ? null
        : new Part(room.heading(), found, room.start(id));
  }

  /** Everything that stands against the form is said at once, readable or not. */
  private NewPatient read(Form form, Long id) {
    LocalDate born = form.day("birthDate", "The birth date");
    LocalDate died = form.optionalDay("diedOn", "The day of death");
    ReachBy way =
        form.read("reachBy", ReachBy::of, one -> true, "Say how the patient wants to be reached.");
    NewPatient entry =
        new NewPatient(
            null,
            signedIn.locationOr(form.value("location")),
            form.value("chartNumber"),
            form.value("name"),
            born,
            form.value("guardianName"),
            form.value("guardianRelation"),
            form.has("language") ? form.value("language") : null,
            form.ticked("interpreter"),
            way,
            form.value("phone"),
            form.value("email"),
            form.value("address"),
            form.ticked("remindersAllowed"),
            died);
    if (!form.ok()) {
      throw new Refusal(
          patients.problems(entry, id).stream()
              .filter(problem -> form.error(String.valueOf(problem.field())) == null)
              .toList());
    }
    return entry;
  }

  private PatientEntry entry(PatientView patient, Form form) {
    List<Option> places =
        locations.all().stream()
            .filter(place -> signedIn.mayActAt(place.id()))
            .map(place -> new Option(place.code(), place.name()))
            .toList();
    Long here = signedIn.locationId();
    if (here != null) {
      LocationView place = locations.byId(here);
      form.prefill("location", place.code());
    }
    return new PatientEntry(
        patient,
        form,
        places,
        Choices.languagesWith(form.has("language") ? form.value("language") : null),
        Choices.WAYS);
  }

  private static String done(String what) {
    if (what == null) {
      return "";
    }
    return switch (what) {
      case "added" -> "The patient is added. Next: the intake form.";
      case "changed" -> "The entry is changed.";
      case "intake" -> "The intake form is kept. Next: a therapist screens.";
      case "screened" -> "The screening is on record.";
      case "accepted" -> "The precaution is accepted.";
      case "clearance" -> "The clearance is on record.";
      case "order" -> "The order is on record.";
      case "consent" -> "The consent is on record.";
      case "withdrawn" -> "It is withdrawn and stays readable.";
      case "outdated" -> "What was screened no longer holds. Next: a therapist screens again.";
      default -> "";
    };
  }

  static Response see(Long id, String done) {
    return Response.seeOther(URI.create("/patients/" + id + (done == null ? "" : "?done=" + done)))
        .build();
  }

  static Response answer(int status, TemplateInstance page) {
    return Response.status(status)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page.render())
        .build();
  }
}
