package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Patients by chart number, name or birth date; never a list without a filter. */
@Path("/api/patients")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class PatientApi {
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A patient; the location by code. */
  record PatientJson(
      String id,
      String chartNumber,
      String name,
      LocalDate birthDate,
      String guardianName,
      String guardianRelation,
      String language,
      boolean interpreter,
      ReachBy reachBy,
      String phone,
      String email,
      String address,
      boolean remindersAllowed,
      LocalDate diedOn,
      String location,
      int version) {}

  /** A patient as sent; the location may be left out where the account has one alone. */
  record PatientEntry(
      String chartNumber,
      String name,
      LocalDate birthDate,
      String guardianName,
      String guardianRelation,
      String language,
      boolean interpreter,
      ReachBy reachBy,
      String phone,
      String email,
      String address,
      boolean remindersAllowed,
      LocalDate diedOn,
      String location) {}

  /** Finds by {@code q} (chart number, words of the name, birth date) or by each on its own. */
  @GET
  public Page<PatientJson> find(
      @QueryParam("q") String text,
      @QueryParam("chartNumber") String chartNumber,
      @QueryParam("name") String name,
      @QueryParam("birthDate") String birthDate,
      @BeanParam Paging paging) {
    String words =
        Stream.of(text, chartNumber, name, birthDate)
            .filter(Objects::nonNull)
            .collect(Collectors.joining(" "));
    return patients.find(words, paging).map(this::json);
  }

  @POST
  @Idempotent
  public Response add(PatientEntry entry) {
    PatientView view = patients.byId(patients.add(read(entry, signedIn.locationOr(place(entry)))));
    return Response.created(URI.create("/api/patients/" + view.id()))
        .tag(IfMatch.tag(view.version()))
        .entity(json(view))
        .build();
  }

  @GET
  @Path("{id}")
  public Response one(@PathParam("id") String id) {
    return answer(patients.byId(Ids.of(id, "patient")));
  }

  @PUT
  @Path("{id}")
  public Response change(
      @PathParam("id") String id, @HeaderParam("If-Match") String read, PatientEntry entry) {
    PatientView before = patients.byId(Ids.of(id, "patient"));
    Long place = place(entry) == null ? before.locationId() : signedIn.locationOr(entry.location());
    return answer(patients.change(before.id(), IfMatch.version(read), read(entry, place)));
  }

  /** The day, today where it is left out. */
  record DeathBody(LocalDate diedOn) {}

  record WithdrawalBody(String reason) {}

  @POST
  @Idempotent
  @Path("{id}/death")
  public Response died(@PathParam("id") String id, DeathBody body) {
    return answer(patients.died(Ids.of(id, "patient"), body == null ? null : body.diedOn()));
  }

  @POST
  @Idempotent
  @Path("{id}/death/withdrawal")
  public Response deathWithdrawn(@PathParam("id") String id, WithdrawalBody body) {
    return answer(
        patients.deathWithdrawn(Ids.of(id, "patient"), body == null ? null : body.reason()));
  }

  private static String place(PatientEntry entry) {
    if (entry == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    return entry.location();
  }

  private static NewPatient read(PatientEntry entry, Long locationId) {
    return new NewPatient(
        null,
        locationId,
        entry.chartNumber(),
        entry.name(),
        entry.birthDate(),
        entry.guardianName(),
        entry.guardianRelation(),
        entry.language(),
        entry.interpreter(),
        entry.reachBy(),
        entry.phone(),
        entry.email(),
        entry.address(),
        entry.remindersAllowed(),
        entry.diedOn());
  }

  private Response answer(PatientView view) {
    return Response.ok(json(view)).tag(IfMatch.tag(view.version())).build();
  }

  private PatientJson json(PatientView view) {
    return new PatientJson(
        Ids.text(view.id()),
        view.chartNumber(),
        view.name(),
        view.birthDate(),
        view.guardianName(),
        view.guardianRelation(),
        view.language(),
        view.interpreter(),
        view.reachBy(),
        view.phone(),
        view.email(),
        view.address(),
        view.remindersAllowed(),
        view.diedOn(),
        locations.byId(view.locationId()).code(),
        view.version());
  }
}
