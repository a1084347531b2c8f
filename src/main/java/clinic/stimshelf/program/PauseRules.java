package clinic.stimshelf.program;

import clinic.stimshelf.web.Refusals;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/** What may stand against a pause. */
final class PauseRules {
  private static final int LONGEST_DAYS = 366;

  private PauseRules() {}

  static void check(
      Program program, LocalDate from, LocalDate to, String reason, Refusals refusals) {
    if (program.state != ProgramState.SIGNED) {
      refusals.add(null, "Only a signed program that still runs can be paused.");
      return;
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      refusals.add("reason", "Say in at most 500 characters why it is paused.");
    }
    if (from == null) {
      refusals.add("from", "From which day on?");
    }
    if (to == null) {
      refusals.add("to", "Up to which day?");
    }
    if (from == null || to == null) {
      return;
    }
    ProgramVersion version = program.signed();
    if (to.isBefore(from)) {
      refusals.add("to", "The pause would end before it begins.");
    } else if (ChronoUnit.DAYS.between(from, to) >= LONGEST_DAYS) {
      refusals.add("to", "A pause lasts at most " + LONGEST_DAYS + " days.", "Stop the program.");
    }
    if (from.isAfter(version.lastSessionOn)) {
      refusals.add("from", "The last session is before that day.");
    }
    if (from.isBefore(version.startsOn)) {
      refusals.add(
          "from", "The program starts after that day.", "Write a new version with a later start.");
    }
    if (program.pauses.stream()
        .anyMatch(one -> !from.isAfter(one.toDay) && !to.isBefore(one.fromDay))) {
      refusals.add("from", "Another pause lies within these days.");
    }
  }
}
