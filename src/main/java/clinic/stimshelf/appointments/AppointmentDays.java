package clinic.stimshelf.appointments;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Matter;
import clinic.stimshelf.people.PatientMatters;
import clinic.stimshelf.program.BookedDays;
import clinic.stimshelf.shelf.UnitBusy;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** What programs, the shelf and a patient's page ask about appointments. */
@ApplicationScoped
class AppointmentDays implements BookedDays, UnitBusy, PatientMatters {
  private static final Duration LOOK_BACK = Duration.ofHours(12);
  private static final int SHOWN = 6;

  @Inject AppointmentRows rows;
  @Inject LastVisits visits;
  @Inject Locations locations;
  @Inject Clock clock;

  @Override
  @Transactional
  public List<LocalDate> appointmentDays(Long patientId, LocalDate from, LocalDate to) {
    Map<Long, ZoneId> zones = new HashMap<>();
    TreeSet<LocalDate> days = new TreeSet<>();
    for (Appointment row :
        rows.list(
            "patientId = ?1 and startsAt >= ?2 and startsAt < ?3 and state in ?4",
            patientId,
            from.minusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant(),
            to.plusDays(2).atStartOfDay(ZoneOffset.UTC).toInstant(),
            AppointmentState.STANDING)) {
      ZoneId zone = zones.computeIfAbsent(row.locationId, locations::zone);
      LocalDate day = LocalDate.ofInstant(row.startsAt, zone);
      if (!day.isBefore(from) && !day.isAfter(to)) {
        days.add(day);
      }
    }
    return List.copyOf(days);
  }

  @Override
  @Transactional
  public Map<Long, LocalDate> lastVisits(Collection<Long> patientIds, LocalDate from) {
    Map<Long, LocalDate> last = new HashMap<>();
    visits
        .of(patientIds)
        .forEach(
            (patient, one) -> {
              if (one.cameAt() != null) {
                LocalDate day = LocalDate.ofInstant(one.cameAt(), locations.zone(one.locationId()));
                if (!day.isBefore(from)) {
                  last.put(patient, day);
                }
              }
            });
    return last;
  }

  @Override
  @Transactional
  public List<BusySpan> busy(Collection<Long> unitIds, Instant from, Instant to) {
    if (unitIds.isEmpty()) {
      return List.of();
    }
    return rows
        .list(
            "unitId in ?1 and unitInUse = false and state in ?2 and startsAt < ?3 and endsAt > ?4"
                + " order by startsAt",
            unitIds,
            List.of(AppointmentState.BOOKED, AppointmentState.ARRIVED),
            to,
            from.minus(LOOK_BACK))
        .stream()
        .map(AppointmentDays::span)
        .filter(span -> span.from().isBefore(to) && span.to().isAfter(from))
        .toList();
  }

  @Override
  public int order() {
    return 30;
  }

  @Override
  public String heading() {
    return "Appointments";
  }

  @Override
  public Matter start(Long patientId) {
    return new Matter("Book several", "", "/schedule/run?patient=" + patientId, "");
  }

  @Override
  @Transactional
  public List<Matter> of(Long patientId) {
    return rows
        .find(
            "patientId = ?1 and startsAt >= ?2 and state in ?3 order by startsAt, id",
            patientId,
            clock.instant().minus(LOOK_BACK),
            List.of(AppointmentState.BOOKED, AppointmentState.ARRIVED))
        .page(0, SHOWN)
        .stream()
        .map(
            row ->
                new Matter(
                    "Appointment",
                    Days.words(row.startsAt.atZone(locations.zone(row.locationId))),
                    "/schedule/" + row.id,
                    row.state.word()))
        .toList();
  }

  private static BusySpan span(Appointment row) {
    return new BusySpan(
        row.unitId,
        row.treatmentStartsAt == null ? row.startsAt : row.treatmentStartsAt,
        row.treatmentEndsAt == null ? row.endsAt : row.treatmentEndsAt,
        UseKind.TREATMENT,
        row.id,
        "booked for a treatment");
  }
}
