package clinic.stimshelf.location;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.SettingsPart;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Comparator;
import java.util.List;

/** Where a manager says how the clinic works. */
@Path("/settings")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
class SettingsPages {
  @Inject @Any Instance<SettingsPart> parts;

  @CheckedTemplate(basePath = "location", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record SettingsPage(List<Part> parts) implements TemplateInstance {}

  /** A part as the page shows it. */
  record Part(String label, String words, String href) {}

  @GET
  public TemplateInstance show() {
    return new SettingsPage(
        parts.stream()
            .sorted(Comparator.comparingInt(SettingsPart::order))
            .map(part -> new Part(part.label(), part.words(), part.href()))
            .toList());
  }
}
