package clinic.stimshelf.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import java.util.List;

/** The page that stands where another could not. */
final class ErrorPage {
  private ErrorPage() {}

  @CheckedTemplate(basePath = "web", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Failed(int status, String heading, String detail, List<Reason> reasons)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "web", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Beginning(String detail, String href, String step) implements TemplateInstance {}

  /** How to begin, where nothing is there yet. */
  static String of(NothingYet nothing) {
    return new Beginning(nothing.getMessage(), nothing.href(), nothing.step()).render();
  }

  /** Rendered here, because an error answer must not fail while it is written. */
  static String of(int status, String heading, String detail, List<Reason> reasons) {
    return new Failed(status, heading, detail, reasons).render();
  }
}
