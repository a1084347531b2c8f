package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.calc.days.WeekRhythm;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * What a therapist writes in one version of a program; a draft may hold blanks.
 *
 * @param template key of the published example it began with, or {@code null}
 * @param weekdays named weekdays; empty where only their number is given
 * @param setting the unit's own stored mode that holds this dose, in words
 * @param cautions what this person must heed beyond the usual cautions, or {@code null}
 * @param instructions anything else for the home sheet, or {@code null}
 */
record Content(
    String template,
    DoseValues dose,
    Set<DayOfWeek> weekdays,
    LocalDate startsOn,
    List<Placement> placements,
    List<PadLine> pads,
    DueDay.Kind dueKind,
    String setting,
    String cautions,
    String instructions) {

  Content {
    weekdays =
        weekdays == null || weekdays.isEmpty()
            ? Set.of()
            : java.util.Collections.unmodifiableSet(EnumSet.copyOf(weekdays));
    placements = List.copyOf(placements);
    pads = List.copyOf(pads);
    // Named days are counted, so that their number never has to be typed as well.
    if (!weekdays.isEmpty() && !dose.has(DoseField.DAYS_PER_WEEK)) {
      dose = dose.with(DoseField.DAYS_PER_WEEK, weekdays.size());
    }
  }

  Content with(DoseField field, Object value) {
    return new Content(
        template,
        dose.with(field, value),
        weekdays,
        startsOn,
        placements,
        pads,
        dueKind,
        setting,
        cautions,
        instructions);
  }

  Content withDose(DoseValues other) {
    return new Content(
        template,
        other,
        weekdays,
        startsOn,
        placements,
        pads,
        dueKind,
        setting,
        cautions,
        instructions);
  }

  Content withDue(DueDay.Kind kind) {
    return new Content(
        template,
        dose,
        weekdays,
        startsOn,
        placements,
        pads,
        kind,
        setting,
        cautions,
        instructions);
  }

  /** The days of a week, or {@code null} where neither names nor a number are known. */
  WeekRhythm rhythm() {
    if (!weekdays.isEmpty()) {
      return WeekRhythm.on(weekdays);
    }
    Integer days = dose.whole(DoseField.DAYS_PER_WEEK);
    return days == null ? null : WeekRhythm.times(days);
  }

  int channels() {
    return placements.stream().mapToInt(Placement::channels).sum();
  }
}
