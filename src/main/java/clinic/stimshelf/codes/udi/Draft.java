package clinic.stimshelf.codes.udi;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A reading under way: the parsers fill it, {@link #toUdi} closes it. */
final class Draft {

  final int currentYear;
  final Map<String, String> elements = new LinkedHashMap<>();
  private final String raw;
  private final List<String> problems = new ArrayList<>();
  private boolean contradicted;

  @Nullable Issuer issuer;
  @Nullable String symbology;
  @Nullable String deviceIdentifier;
  @Nullable String lot;
  @Nullable String serial;
  @Nullable LocalDate expiresOn;
  @Nullable Integer expiresAtHour;
  @Nullable LocalDate madeOn;
  @Nullable Integer count;

  Draft(String raw, int currentYear) {
    this.raw = raw;
    this.currentYear = currentYear;
  }

  /** Something that makes the reading unusable. */
  void refuse(String words, Object... values) {
    contradicted = true;
    warn(words, values);
  }

  /** Something to look at although the reading stands. */
  void warn(String words, Object... values) {
    Object[] shown = values.clone();
    for (int i = 0; i < shown.length; i++) {
      if (shown[i] instanceof String text) {
        shown[i] = show(text);
      }
    }
    problems.add(words.formatted(shown));
  }

  boolean isContradicted() {
    return contradicted;
  }

  /** The date if it exists, noting what is wrong with it if it does not. */
  @Nullable LocalDate date(String what, String digits, @Nullable LocalDate date) {
    if (date == null) {
      refuse(
          "The %s %s is no day of the calendar: scan again, or type the date that the label prints.",
          what, digits);
    }
    return date;
  }

  Udi toUdi() {
    if (deviceIdentifier == null && !contradicted) {
      refuse(
          "The label names no product: scan the symbol that holds the product number too, or type that number.");
    }
    return new Udi(
        issuer,
        deviceIdentifier,
        lot,
        serial,
        expiresOn,
        expiresAtHour,
        madeOn,
        count,
        raw,
        symbology,
        elements,
        !contradicted,
        problems);
  }

  /** Text fit for a message: control characters visible, length bounded. */
  private static String show(String text) {
    StringBuilder shown = new StringBuilder();
    text.codePoints()
        .limit(60)
        .forEach(
            c -> {
              if (c < ' ') {
                shown.appendCodePoint(0x2400 + c);
              } else if (c == 0x7F || Character.isSurrogate((char) c) && c < 0x10000) {
                shown.append('\uFFFD');
              } else {
                shown.appendCodePoint(c);
              }
            });
    return text.codePointCount(0, text.length()) > 60
        ? shown.append('…').toString()
        : shown.toString();
  }
}
