package clinic.stimshelf.remind;

import clinic.stimshelf.access.Guesses;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Retried;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;

/**
 * The way out of messages (RFC 8058): looking changes nothing, so that scanners of mail may look; a
 * post acts, without cookie or redirect.
 */
@Path("/p/stop/{token}")
@Produces(MediaType.TEXT_HTML)
@PermitAll
@Blocking
class StopPages {
  @Inject Tokens tokens;
  @Inject ReminderBook book;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Guesses guesses;
  @Inject HttpServerRequest request;

  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NoMore(boolean spanish, String clinic, String phone, boolean done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance ask(@PathParam("token") String token) {
    return page(find(token), false);
  }

  @POST
  @Consumes({MediaType.APPLICATION_FORM_URLENCODED, MediaType.MULTIPART_FORM_DATA})
  @Retried
  public TemplateInstance stop(@PathParam("token") String token) {
    PatientToken found = find(token);
    book.optOut(found.patientId, found.route, found.address);
    return page(found, true);
  }

  private PatientToken find(String token) {
    guesses.refuse("link", request);
    return tokens
        .open(PatientToken.Purpose.STOP, token)
        .orElseThrow(
            () -> {
              guesses.failed("link", request);
              return new NotFound("This link opens nothing any more. Please call the clinic.");
            });
  }

  private TemplateInstance page(PatientToken found, boolean done) {
    PatientView patient = patients.byIds(List.of(found.patientId)).get(found.patientId);
    var place = locations.byId(patient.locationId());
    return new NoMore(patient.language().startsWith("es"), place.name(), place.phone(), done);
  }
}
