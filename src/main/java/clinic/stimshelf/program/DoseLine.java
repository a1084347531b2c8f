package clinic.stimshelf.program;

import clinic.stimshelf.web.Option;
import java.util.ArrayList;
import java.util.List;

/**
 * A value of the dose as a field of the form.
 *
 * @param name of the field
 * @param hint what the source prints, or {@code null}
 * @param changed whether it differs from the source
 * @param options where it is a choice, else empty
 */
record DoseLine(
    String name, String label, String hint, boolean changed, String mode, List<Option> options) {

  /** The values of a session, in the order of the form. */
  static final List<DoseField> SESSION =
      List.of(
          DoseField.FREQUENCY_HZ,
          DoseField.FREQUENCY_KIND,
          DoseField.PULSE_WIDTH_US,
          DoseField.ON_SECONDS,
          DoseField.OFF_SECONDS,
          DoseField.RAMP_UP_SECONDS,
          DoseField.RAMP_DOWN_SECONDS,
          DoseField.RAMP_INSIDE_ON,
          DoseField.DROP_LAST_REST,
          DoseField.CONTRACTIONS,
          DoseField.MINUTES);

  /** The values of the course. */
  static final List<DoseField> COURSE =
      List.of(DoseField.SESSIONS_PER_DAY, DoseField.DAYS_PER_WEEK, DoseField.WEEKS);

  /** How strong. */
  static final List<DoseField> STRENGTH = List.of(DoseField.INTENSITY, DoseField.LIMIT_MA);

  static List<DoseLine> of(List<DoseField> fields, Template template, DoseValues dose) {
    List<String> changed =
        template == null
            ? List.of()
            : template.differences(dose).stream().map(Template.Difference::field).toList();
    List<DoseLine> lines = new ArrayList<>();
    for (DoseField field : fields) {
      Template.Published published = template == null ? null : template.values().get(field);
      String hint = hint(field, published);
      lines.add(
          new DoseLine(
              field.key(),
              field.words(),
              hint,
              changed.contains(field.key()),
              field == DoseField.INTENSITY ? "text" : "decimal",
              options(field)));
    }
    return lines;
  }

  private static String hint(DoseField field, Template.Published published) {
    if (published != null) {
      return "Source: " + published.words(field);
    }
    return switch (field) {
      case LIMIT_MA -> "Only where the unit shows milliamperes.";
      case DROP_LAST_REST -> "No: the last rest belongs to the session.";
      case RAMP_DOWN_SECONDS -> "Blank: as the unit does it, if ramps lie inside.";
      case PULSE_WIDTH_US -> "Of one phase; blank for bursts.";
      case MINUTES -> "Instead of contractions.";
      default -> null;
    };
  }

  private static List<Option> options(DoseField field) {
    return switch (field) {
      case FREQUENCY_KIND ->
          List.of(
              new Option("pulses", FrequencyKind.PULSES.words()),
              new Option("bursts", FrequencyKind.BURSTS.words()));
      case RAMP_INSIDE_ON ->
          List.of(new Option("yes", "yes, inside"), new Option("no", "no, added to it"));
      case DROP_LAST_REST -> List.of(new Option("no", "no"), new Option("yes", "yes"));
      default -> List.of();
    };
  }
}
