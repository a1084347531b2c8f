package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.CoverPlan;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * What an appointment runs into, without a database. Times are half-open: one may begin where
 * another ends.
 *
 * @param capacity how many people the room treats at once
 * @param setUp how long before a treatment its unit is taken
 * @param wipe how long after it the unit is not free
 */
record Collisions(int capacity, Duration setUp, Duration wipe) {

  /** The patient's own appointments at that time. */
  List<Taken> ofPatient(NewAppointment wanted, Collection<Taken> others) {
    Span<Instant> span = wanted.taking().span();
    return others.stream()
        .filter(other -> other.patientId().equals(wanted.patientId()))
        .filter(other -> other.span().overlaps(span))
        .toList();
  }

  /** Treatments or bookings that take the same unit at that time. */
  List<Taken> ofUnit(NewAppointment wanted, Collection<Taken> others) {
    if (wanted.unitId() == null) {
      return List.of();
    }
    Span<Instant> span = wanted.taking().unitSpan(setUp, wipe);
    return others.stream()
        .filter(other -> wanted.unitId().equals(other.unitId()))
        .filter(other -> other.unitSpan(setUp, wipe).overlaps(span))
        .toList();
  }

  /** Whether at some moment of the appointment the room already treats as many as it can. */
  boolean roomFull(NewAppointment wanted, Collection<Taken> others) {
    if (wanted.roomId() == null) {
      return false;
    }
    Span<Instant> span = wanted.taking().span();
    List<Span<Instant>> there = new ArrayList<>();
    for (Taken other : others) {
      if (wanted.roomId().equals(other.roomId()) && other.span().overlaps(span)) {
        there.add(other.span());
      }
    }
    return CoverPlan.mostAtOnce(span, there) >= capacity;
  }

  boolean none(NewAppointment wanted, Collection<Taken> others) {
    return ofPatient(wanted, others).isEmpty()
        && ofUnit(wanted, others).isEmpty()
        && !roomFull(wanted, others);
  }
}
