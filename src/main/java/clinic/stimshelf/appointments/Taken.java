package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import java.time.Duration;
import java.time.Instant;

/** Time that another appointment takes up. */
record Taken(
    Long id,
    Long patientId,
    Long therapistId,
    Long roomId,
    Long unitId,
    Instant startsAt,
    Instant endsAt,
    Instant treatmentStartsAt,
    Instant treatmentEndsAt) {

  /** As the database tells it; a unit that the plan chose stands in nobody's way. */
  Taken(
      Long id,
      Long patientId,
      Long therapistId,
      Long roomId,
      Long unitId,
      boolean unitPlanned,
      Instant startsAt,
      Instant endsAt,
      Instant treatmentStartsAt,
      Instant treatmentEndsAt) {
    this(
        id,
        patientId,
        therapistId,
        roomId,
        unitPlanned ? null : unitId,
        startsAt,
        endsAt,
        treatmentStartsAt,
        treatmentEndsAt);
  }

  Span<Instant> span() {
    return Span.of(startsAt, endsAt);
  }

  /** How long its unit is taken: from setting up to the end of the wipe. */
  Span<Instant> unitSpan(Duration setUp, Duration wipe) {
    return treatmentStartsAt == null
        ? span()
        : Span.of(treatmentStartsAt.minus(setUp), treatmentEndsAt.plus(wipe));
  }
}
