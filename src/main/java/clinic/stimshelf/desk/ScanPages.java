package clinic.stimshelf.desk;

import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import org.jboss.resteasy.reactive.RestForm;

/** The one field that takes a scan. What is found stands in the answer, never in an address. */
@Path("/scan")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class ScanPages {
  @Inject Scans scans;

  @CheckedTemplate(basePath = "desk", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScanFound(String headline, ScanAnswer answer) implements TemplateInstance {}

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response scan(@RestForm String code) {
    ScanAnswer answer = scans.look(code);
    if (answer.straightTo() != null) {
      return Response.seeOther(URI.create(answer.straightTo())).build();
    }
    return Response.ok(new ScanFound(headline(answer), answer)).build();
  }

  /** Somebody who comes back to the page by its address has nothing scanned any more. */
  @GET
  public Response again() {
    return Response.seeOther(URI.create("/")).build();
  }

  private static String headline(ScanAnswer answer) {
    if (answer.kind() == ScanKind.UNKNOWN) {
      return "Not found";
    }
    if (answer.matches().size() > 1) {
      return answer.kind() == ScanKind.PATIENT
          ? answer.matches().size() + " patients go by that"
          : answer.matches().size() + " lots go by that";
    }
    return switch (answer.kind()) {
      case UNIT -> "Unit " + answer.matches().get(0).label();
      case PATIENT -> "Patient, " + answer.matches().get(0).label();
      case ORDER -> "Pads, " + answer.matches().get(0).label();
      default -> answer.matches().isEmpty() ? "A device’s label" : "A pack of pads";
    };
  }
}
