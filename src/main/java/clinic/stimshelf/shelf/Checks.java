package clinic.stimshelf.shelf;

import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.web.Refusals;
import java.util.regex.Pattern;

/** What names, codes and tags may look like. */
final class Checks {
  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9._-]{1,32}");

  private Checks() {}

  static void code(String field, String text, Refusals refusals) {
    if (text == null || !CODE.matcher(text).matches()) {
      refusals.add(
          field,
          "“"
              + (text == null ? "" : text)
              + "” is not 1 to 32 letters, digits, dots, dashes or _.");
    }
  }

  static void tag(String field, String text, Refusals refusals) {
    Tag.problemWith(text == null ? "" : text).ifPresent(problem -> refusals.add(field, problem));
  }

  static void text(String field, String what, String text, int most, Refusals refusals) {
    if (text == null || text.isBlank()) {
      refusals.add(field, what + " is missing or has no name.");
    } else {
      most(field, text, most, refusals);
    }
  }

  static void most(String field, String text, int most, Refusals refusals) {
    if (text != null && text.strip().length() > most) {
      refusals.add(field, "This is too long: at most " + most + " characters.");
    }
  }
}
