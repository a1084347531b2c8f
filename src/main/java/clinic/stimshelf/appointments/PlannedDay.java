package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.shelf.UnitView;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;

/**
 * Which unit serves which treatment of a location's day.
 *
 * @param lines a treatment each, by start
 * @param units what can serve on that day
 * @param out units of the location that cannot, and why
 * @param peak most treatments at once that need a unit of the shelf
 * @param provenServed whether no other plan serves more
 */
record PlannedDay(
    Long locationId,
    LocalDate day,
    ZoneId zone,
    List<Line> lines,
    List<DayUnit> units,
    List<OutOfPlan> out,
    int peak,
    boolean provenServed) {

  /** How a treatment comes to its unit. */
  enum How {
    /** It is being used in this treatment. */
    RUNS("in use"),
    /** The patient has it at home and brings it. */
    BROUGHT("brought along"),
    /** Somebody named it; the plan leaves it alone. */
    BY_HAND("by hand"),
    PLANNED("planned"),
    NONE("no unit");

    private final String words;

    How(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }

    /** As scripts spell it: {@code by-hand}. */
    String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * A treatment.
   *
   * @param span how long its unit is taken, setting up and wipe included
   * @param unitTag {@code null} for none
   * @param storedId the unit written down for it, by plan or by hand
   * @param problem why the unit named by hand will not do, or {@code null}
   */
  record Line(
      Long appointmentId,
      Long patientId,
      Span<Instant> span,
      int channels,
      How how,
      Long unitId,
      String unitTag,
      Long storedId,
      String problem) {

    /** Whether the plan differs from what is written down. */
    public boolean differs() {
      return how == How.BROUGHT
          ? storedId != null && !storedId.equals(unitId)
          : (how == How.PLANNED || how == How.NONE) && !Objects.equals(unitId, storedId);
    }

    /** Whether it had a unit and the plan finds none. */
    public boolean lost() {
      return how == How.NONE && storedId != null;
    }
  }

  /**
   * A unit that can serve.
   *
   * @param busy when it cannot, with the reason
   */
  record DayUnit(UnitView unit, Map<Span<Instant>, String> busy) {}

  /** A unit that cannot serve all day. */
  record OutOfPlan(String unitTag, String reason) {}

  PlannedDay {
    lines = List.copyOf(lines);
    units = List.copyOf(units);
    out = List.copyOf(out);
  }

  List<Line> differing() {
    return lines.stream().filter(Line::differs).toList();
  }

  public List<Line> unserved() {
    return lines.stream().filter(line -> line.how() == How.NONE).toList();
  }
}
