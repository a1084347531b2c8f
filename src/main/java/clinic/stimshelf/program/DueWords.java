package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** The three kinds of due day as scripts spell and people read them. */
final class DueWords {

  private DueWords() {}

  /** {@code last-appointment-before-end}, {@code first-appointment-after-last-session}, … */
  static String word(DueDay.Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * @throws IllegalArgumentException naming the kinds there are
   */
  static DueDay.Kind kind(String word) {
    String wanted = word.strip().toUpperCase(Locale.ROOT).replace('-', '_');
    return Arrays.stream(DueDay.Kind.values())
        .filter(kind -> kind.name().equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(DueDay.Kind.values())
                            .map(DueWords::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }

  /** What the choice is, for the therapist. */
  static String title(DueDay.Kind kind) {
    return switch (kind) {
      case LAST_APPOINTMENT_BEFORE_END -> "at the last appointment before the program ends";
      case FIRST_APPOINTMENT_AFTER_LAST_SESSION ->
          "at the first appointment after the last session";
      case DROP_OFF -> "dropped off at the counter";
    };
  }

  /** Why this day, with what is lost. */
  static String why(DueDay due, int sessions) {
    if (due.day() == null) {
      return absence(due.absence());
    }
    return switch (due.kind()) {
      case LAST_APPOINTMENT_BEFORE_END ->
          due.sessionsLost() == 0
              ? "no session is lost"
              : "loses " + due.sessionsLost() + " of " + sessions + " sessions";
      case FIRST_APPOINTMENT_AFTER_LAST_SESSION -> "after the last session; no session is lost";
      case DROP_OFF -> "the first open day after the last session; no session is lost";
    };
  }

  static String absence(DueDay.Absence absence) {
    return switch (absence) {
      case NO_APPOINTMENT_BEFORE_END ->
          "No appointment on an open day is booked before the program ends.";
      case NO_APPOINTMENT_AFTER_LAST_SESSION ->
          "No appointment is booked in the days after the last session.";
    };
  }
}
