package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;
import clinic.stimshelf.web.Malformed;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * A program as scripts send it. Values of the dose that are left out are filled from the template,
 * if one is named; what stays blank may stand in a draft.
 *
 * @param location code; left out: the patient's own
 * @param weekdays names such as {@code monday}; instead of them {@code daysPerWeek}
 * @param dueKind {@code last-appointment-before-end}, {@code first-appointment-after-last-session}
 *     or {@code drop-off}
 * @param reason why a signed program is changed
 */
record ProgramBody(
    Long patientId,
    String location,
    String template,
    BigDecimal onSeconds,
    BigDecimal offSeconds,
    BigDecimal rampUpSeconds,
    BigDecimal rampDownSeconds,
    Boolean rampInsideOn,
    Boolean dropLastRest,
    Integer contractions,
    BigDecimal minutes,
    BigDecimal frequencyHz,
    String frequencyKind,
    BigDecimal pulseWidthUs,
    String intensity,
    BigDecimal limitMa,
    List<PlacementBody> placements,
    List<PadBody> pads,
    LocalDate startsOn,
    List<String> weekdays,
    Integer daysPerWeek,
    Integer sessionsPerDay,
    Integer weeks,
    String dueKind,
    String setting,
    String cautions,
    String instructions,
    String reason) {

  record PlacementBody(String muscle, String side, Integer channels, String where) {}

  record PadBody(String code, Integer perSession) {}

  /**
   * @throws Malformed naming a field that is no word of ours
   */
  Content content(Templates templates) {
    DoseEntry dose =
        new DoseEntry(
            onSeconds,
            offSeconds,
            rampUpSeconds,
            rampDownSeconds,
            rampInsideOn,
            dropLastRest,
            contractions,
            minutes,
            frequencyHz,
            word(
                "frequencyKind",
                frequencyKind,
                text -> (FrequencyKind) DoseField.FREQUENCY_KIND.parse(text)),
            pulseWidthUs,
            intensity,
            limitMa,
            sessionsPerDay,
            daysPerWeek,
            weeks);
    Content typed =
        new Content(
            Writing.blankToNull(template),
            dose.values(),
            days(),
            startsOn,
            placements == null ? List.of() : placements.stream().map(this::placement).toList(),
            pads == null
                ? List.of()
                : pads.stream()
                    .map(pad -> new PadLine(pad.code(), or(pad.perSession(), 0)))
                    .toList(),
            word("dueKind", dueKind, DueWords::kind),
            setting,
            cautions,
            instructions);
    return templates
        .find(typed.template())
        .map(found -> typed.withDose(typed.dose().filledFrom(found.dose())))
        .orElse(typed);
  }

  private Placement placement(PlacementBody one) {
    return new Placement(
        one.muscle(), word("side", one.side(), Side::of), or(one.channels(), 0), one.where());
  }

  private Set<DayOfWeek> days() {
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    if (weekdays != null) {
      weekdays.forEach(name -> days.add(word("weekdays", name, Weekdays::of)));
    }
    return days;
  }

  static <T> T word(String field, String text, java.util.function.Function<String, T> reader) {
    if (text == null || text.isBlank()) {
      return null;
    }
    try {
      return reader.apply(text.strip());
    } catch (IllegalArgumentException unknown) {
      throw new Malformed(field, unknown.getMessage());
    }
  }

  private static int or(Integer number, int otherwise) {
    return number == null ? otherwise : number;
  }
}
