package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What a week shows of its appointments: no more than fits a cell, with three questions. */
@ApplicationScoped
class WeekRows {
  @Inject EntityManager em;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject SignedIn signedIn;

  /**
   * An appointment in a cell.
   *
   * @param therapistId {@code null} for whoever is there
   */
  record Visit(
      Long id,
      Long therapistId,
      String therapist,
      LocalDate day,
      LocalTime begins,
      String patientName,
      AppointmentState state) {

    /** Whether it takes up its time. */
    public boolean stands() {
      return AppointmentState.TAKING.contains(state);
    }
  }

  /** A row as read. */
  record Read(
      Long id, Long therapistId, Long patientId, Instant startsAt, AppointmentState state) {}

  /** Seven days from a Monday on, by time; cancelled ones are left out. */
  @Transactional
  List<Visit> of(Long locationId, LocalDate monday, ZoneId zone) {
    signedIn.requireLocation(locationId);
    List<Read> rows =
        em.createQuery(
                "select new clinic.stimshelf.appointments.WeekRows$Read(a.id, a.therapistId,"
                    + " a.patientId, a.startsAt, a.state)"
                    + " from Appointment a where a.locationId = ?1 and a.startsAt >= ?2"
                    + " and a.startsAt < ?3 and a.state <> ?4 order by a.startsAt, a.id",
                Read.class)
            .setParameter(1, locationId)
            .setParameter(2, monday.atStartOfDay(zone).toInstant())
            .setParameter(3, monday.plusDays(7).atStartOfDay(zone).toInstant())
            .setParameter(4, AppointmentState.CANCELLED)
            .getResultList();
    Map<Long, PatientView> people =
        patients.byIds(rows.stream().map(Read::patientId).collect(Collectors.toSet()));
    Map<Long, String> names = staff.names(rows.stream().map(Read::therapistId).toList());
    return rows.stream()
        .map(
            row ->
                new Visit(
                    row.id(),
                    row.therapistId(),
                    row.therapistId() == null ? "Any therapist" : names.get(row.therapistId()),
                    LocalDate.ofInstant(row.startsAt(), zone),
                    row.startsAt().atZone(zone).toLocalTime(),
                    people.get(row.patientId()).name(),
                    row.state()))
        .toList();
  }
}
