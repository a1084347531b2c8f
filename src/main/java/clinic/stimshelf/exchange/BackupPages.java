package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;

/** Settings, Backups. */
@Path("/settings/backups")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class BackupPages {
  @Inject Backups backups;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  record Line(String name, String when, String size) {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record BackupList(boolean possible, String folder, List<Line> lines, List<Reason> reasons)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list() {
    return page(List.of());
  }

  @POST
  public Response make() {
    try {
      backups.now();
      return Response.seeOther(URI.create("/settings/backups")).build();
    } catch (Refusal refusal) {
      return Response.status(422)
          .entity(page(refusal.reasons()))
          .type("text/html;charset=UTF-8")
          .build();
    }
  }

  private BackupList page(List<Reason> reasons) {
    ZoneId zone =
        signedIn.locationId() == null ? ZoneOffset.UTC : locations.zone(signedIn.locationId());
    return new BackupList(
        backups.possible(),
        backups.folder().toString(),
        backups.all().stream()
            .map(
                one ->
                    new Line(one.name(), Days.at(one.madeAt(), zone), one.bytes() / 1024 + " kB"))
            .toList(),
        reasons);
  }
}
