package clinic.stimshelf.desk;

import clinic.stimshelf.appointments.AppointmentView;
import clinic.stimshelf.desk.TodayView.Coming;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import java.time.Instant;

/** Whether the unit of an appointment will be ready when it is needed. */
final class UnitsOfVisits {
  private UnitsOfVisits() {}

  /** An appointment whose unit is not ready, or {@code null} if nothing is to be done for it. */
  static Coming notReady(AppointmentView visit) {
    String why = whyNotReady(visit);
    return why == null
        ? null
        : new Coming(
            String.valueOf(visit.id()),
            String.valueOf(visit.patientId()),
            visit.chartNumber(),
            visit.patientName(),
            visit.location(),
            visit.startsAt(),
            visit.unit() == null ? null : visit.unit().tag(),
            why);
  }

  private static String whyNotReady(AppointmentView visit) {
    if (visit.lacksUnit()) {
      return "No unit is planned for it.";
    }
    UnitView unit = visit.unit();
    if (unit == null || isInThisTreatment(visit, unit)) {
      return null;
    }
    Instant needed =
        visit.treatmentStartsAt() == null ? visit.startsAt() : visit.treatmentStartsAt();
    return switch (unit.state()) {
      case READY, RESERVED ->
          unit.testDue()
              ? unit.tag() + " is past its safety test: plan another unit."
              : unit.charged() ? null : unit.tag() + " is to charge.";
      case TO_WIPE ->
          unit.readyAt() != null && !unit.readyAt().isAfter(needed)
              ? null
              : unit.tag() + " is to wipe.";
      case IN_TREATMENT ->
          unit.use() != null && unit.use().until() != null && unit.use().until().isBefore(needed)
              ? null
              : unit.tag() + " is still in another treatment.";
      default -> unit.tag() + " is " + unit.state().words() + ": plan another unit.";
    };
  }

  private static boolean isInThisTreatment(AppointmentView visit, UnitView unit) {
    return unit.use() != null
        && unit.use().kind() == UseKind.TREATMENT
        && visit.id().equals(unit.use().subjectId());
  }
}
