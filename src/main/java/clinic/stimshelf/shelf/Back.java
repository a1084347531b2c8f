package clinic.stimshelf.shelf;

import clinic.stimshelf.web.Form;
import io.quarkus.qute.TemplateInstance;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.regex.Pattern;

/** Where a form leads: on, or back to what was typed. */
final class Back {
  private static final Pattern OWN_PATH = Pattern.compile("/(?![/\\\\])[!-~&&[^\\\\]]*");

  private Back() {}

  /** To the page that the form names, if it is one of ours, else to the other. */
  static Response to(Form form, String other) {
    String named = form.value("back");
    return to(OWN_PATH.matcher(named).matches() ? named : other);
  }

  static Response to(String path) {
    return Response.seeOther(URI.create(path)).build();
  }

  static Response again(int status, TemplateInstance page) {
    return Response.status(status)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page.render())
        .build();
  }
}
