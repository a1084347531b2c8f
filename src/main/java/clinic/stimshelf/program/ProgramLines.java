package clinic.stimshelf.program;

import clinic.stimshelf.web.Days;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** A program in words, for pages and prints. */
final class ProgramLines {

  private ProgramLines() {}

  /**
   * A value of the dose in words.
   *
   * @param source what the template's source prints, where this differs; else {@code null}
   */
  record Line(String label, String value, String source) {}

  static List<Line> dose(ProgramView program) {
    List<Line> lines = new ArrayList<>();
    add(lines, program, "frequencyHz", "Frequency", number(program.frequencyHz(), " Hz"));
    if (program.frequencyKind() == FrequencyKind.BURSTS) {
      add(lines, program, "frequencyKind", "counts", program.frequencyKind().words());
    }
    add(lines, program, "pulseWidthUs", "Pulse width", number(program.pulseWidthUs(), " µs"));
    add(lines, program, "onSeconds", "On", number(program.onSeconds(), " s"));
    add(lines, program, "offSeconds", "Off", number(program.offSeconds(), " s"));
    add(lines, program, "rampUpSeconds", "Ramp up", number(program.rampUpSeconds(), " s"));
    add(lines, program, "rampDownSeconds", "Ramp down", number(program.rampDownSeconds(), " s"));
    add(
        lines,
        program,
        "rampInsideOn",
        "Ramps",
        program.rampInsideOn() == null
            ? null
            : program.rampInsideOn() ? "inside the on time" : "added to the on time");
    add(
        lines,
        program,
        "contractions",
        "Contractions",
        program.contractions() == null ? null : program.contractions().toString());
    add(lines, program, "minutes", "Minutes", number(program.minutes(), ""));
    add(lines, program, "intensity", "Intensity", program.intensity());
    add(lines, program, "limitMa", "Not above", number(program.limitMa(), " mA"));
    add(lines, program, "sessionsPerDay", "Sessions a day", text(program.sessionsPerDay()));
    add(
        lines,
        program,
        "daysPerWeek",
        "Days a week",
        program.weekdays() == null
            ? text(program.daysPerWeek())
            : program.weekdays().stream()
                .map(ProgramLines::capital)
                .collect(Collectors.joining(", ")));
    add(lines, program, "weeks", "Weeks", text(program.weeks()));
    return lines;
  }

  /** How a program stands, as a sentence. */
  static String state(ProgramView program, ZoneId zone) {
    ProgramView.VersionView latest = program.versions().get(program.versions().size() - 1);
    String draft =
        latest.state() == VersionState.DRAFT
            ? "Version " + latest.version() + " is a draft by " + latest.draftedBy() + "."
            : "";
    return switch (program.state()) {
      case DRAFT -> draft;
      case STOPPED ->
          (program.abandoned() ? "Ended as abandoned on " : "Stopped on ")
              + Days.full(program.stoppedAt().atZone(zone).toLocalDate())
              + ": "
              + program.stopReason();
      case HELD ->
          "Stopped now, until the patient was screened again: "
              + program.hold().words()
              + (program.hold().note() == null ? "" : " (" + program.hold().note() + ")")
              + ". Nobody uses the unit meanwhile. "
              + signed(program, zone);
      case PAUSED -> signed(program, zone) + " Paused today. " + draft;
      case SIGNED -> signed(program, zone) + " " + draft;
    };
  }

  private static String signed(ProgramView program, ZoneId zone) {
    ProgramView.VersionView version = program.versions().get(program.signedVersion() - 1);
    return "Version "
        + version.version()
        + " signed by "
        + version.signedBy()
        + " on "
        + Days.full(version.signedAt().atZone(zone).toLocalDate())
        + (version.cosigned() ? ", drafted by " + version.draftedBy() : "")
        + ".";
  }

  private static void add(
      List<Line> lines, ProgramView program, String field, String label, String value) {
    String source =
        program.changes().stream()
            .filter(change -> change.field().equals(field))
            .map(change -> change.source())
            .findFirst()
            .orElse(null);
    if (value != null || source != null) {
      lines.add(new Line(label, value == null ? "blank" : value, source));
    }
  }

  private static String number(java.math.BigDecimal number, String unit) {
    return number == null ? null : DoseField.plain(number).toPlainString() + unit;
  }

  private static String text(Integer number) {
    return number == null ? null : number.toString();
  }

  static String capital(String word) {
    return word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1);
  }
}
