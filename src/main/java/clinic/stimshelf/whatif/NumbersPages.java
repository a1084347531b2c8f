package clinic.stimshelf.whatif;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;
import java.util.List;

/** Try other numbers: the questions that there are. */
@Path("/numbers")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class NumbersPages {
  static final String HTML = "text/html;charset=UTF-8";

  /** The questions. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NumbersPage() implements TemplateInstance {}

  @GET
  public TemplateInstance page() {
    return new NumbersPage();
  }

  static Response shown(Form form, TemplateInstance page) {
    return Response.status(form.ok() ? 200 : 422).type(HTML).entity(page.render()).build();
  }

  /** The one asked for, or the first there is; empty where there is none. */
  static String chosen(Form form, String name, List<Option> options) {
    String asked = form.value(name);
    return options.stream()
        .map(Option::value)
        .filter(asked::equals)
        .findFirst()
        .orElse(options.isEmpty() ? "" : options.get(0).value());
  }
}
