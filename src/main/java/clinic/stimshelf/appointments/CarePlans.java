package clinic.stimshelf.appointments;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Plans of care: visits used of those authorized, and the last day. They warn, they refuse not. */
@ApplicationScoped
class CarePlans implements PanacheRepository<CarePlan> {
  private static final int MOST_VISITS = 500;

  @Inject EntityManager em;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;

  /**
   * A plan as entered.
   *
   * @param visits how many are authorized; {@code null} where nobody limits them
   */
  record NewCarePlan(
      Long patientId, LocalDate firstDay, LocalDate lastDay, Integer visits, String authorizedBy) {}

  /**
   * How a plan stands.
   *
   * @param used visits that took place in its time
   * @param booked visits still to come in its time
   */
  record Standing(
      Long id,
      LocalDate firstDay,
      LocalDate lastDay,
      Integer visits,
      String authorizedBy,
      boolean ended,
      int used,
      int booked) {

    /** Such as “7 of 12 visits used, 3 booked, to 03/31/2026”. */
    public String words() {
      return used
          + (visits == null ? " visits used, " : " of " + visits + " visits used, ")
          + booked
          + " booked, to "
          + Days.full(lastDay)
          + (ended ? ", ended" : "");
    }

    public boolean over() {
      return visits != null && used + booked > visits;
    }
  }

  /** A patient's plans, the latest first. */
  @Transactional
  List<Standing> of(Long patientId) {
    PatientView patient = patients.byId(patientId);
    ZoneId zone = locations.zone(patient.locationId());
    List<Standing> found = new ArrayList<>();
    for (CarePlan plan : list("patientId = ?1 order by firstDay desc, id desc", patientId)) {
      int used = 0;
      int booked = 0;
      for (Object[] row : visits(List.of(patientId), plan.firstDay, plan.last(), zone)) {
        if (row[2] == AppointmentState.BOOKED) {
          booked++;
        } else {
          used++;
        }
      }
      found.add(
          new Standing(
              plan.id,
              plan.firstDay,
              plan.last(),
              plan.visits,
              plan.authorizedBy,
              plan.endedOn != null,
              used,
              booked));
    }
    return found;
  }

  /** Warnings of appointments of one location by their number, with two questions. */
  Map<Long, String> warnings(Collection<Appointment> appointments, ZoneId zone) {
    Map<Long, String> warnings = new HashMap<>();
    Set<Long> who = new HashSet<>();
    appointments.forEach(row -> who.add(row.patientId));
    if (who.isEmpty()) {
      return warnings;
    }
    Map<Long, List<CarePlan>> plans = new HashMap<>();
    for (CarePlan plan : list("patientId in ?1 order by firstDay", who)) {
      plans.computeIfAbsent(plan.patientId, id -> new ArrayList<>()).add(plan);
    }
    if (plans.isEmpty()) {
      return warnings;
    }
    LocalDate first =
        plans.values().stream()
            .flatMap(List::stream)
            .map(plan -> plan.firstDay)
            .min(LocalDate::compareTo)
            .orElseThrow();
    LocalDate last =
        plans.values().stream()
            .flatMap(List::stream)
            .map(CarePlan::last)
            .max(LocalDate::compareTo)
            .orElseThrow();
    Map<Long, List<LocalDate>> days = new HashMap<>();
    Map<Long, List<Instant>> starts = new HashMap<>();
    for (Object[] row : visits(plans.keySet(), first, last, zone)) {
      Long patient = (Long) row[0];
      starts.computeIfAbsent(patient, id -> new ArrayList<>()).add((Instant) row[1]);
      days.computeIfAbsent(patient, id -> new ArrayList<>())
          .add(LocalDate.ofInstant((Instant) row[1], zone));
    }
    for (Appointment row : appointments) {
      List<CarePlan> theirs = plans.get(row.patientId);
      if (theirs != null && !row.state.over()) {
        String warning =
            warning(
                theirs,
                LocalDate.ofInstant(row.startsAt, zone),
                row.startsAt,
                days.getOrDefault(row.patientId, List.of()),
                starts.getOrDefault(row.patientId, List.of()));
        if (warning != null) {
          warnings.put(row.id, warning);
        }
      }
    }
    return warnings;
  }

  /**
   * What a patient's plan says against further visits on those days, a sentence each.
   *
   * @param more visits not booked yet
   */
  @Transactional
  List<String> against(Long patientId, List<LocalDate> more) {
    List<String> against = new ArrayList<>();
    List<Standing> plans = of(patientId);
    if (plans.isEmpty() || more.isEmpty()) {
      return against;
    }
    long uncovered =
        more.stream()
            .filter(
                day ->
                    plans.stream()
                        .noneMatch(
                            plan -> !day.isBefore(plan.firstDay()) && !day.isAfter(plan.lastDay())))
            .count();
    if (uncovered > 0) {
      against.add(
          uncovered
              + (uncovered == 1 ? " of them lies" : " of them lie")
              + " outside the plan of care, which ends "
              + Days.full(plans.get(0).lastDay())
              + ".");
    }
    for (Standing plan : plans) {
      long within =
          more.stream()
              .filter(day -> !day.isBefore(plan.firstDay()) && !day.isAfter(plan.lastDay()))
              .count();
      if (plan.visits() != null && within > 0) {
        long over = plan.used() + plan.booked() + within - plan.visits();
        if (over > 0) {
          against.add(
              "With them "
                  + (plan.used() + plan.booked() + within)
                  + " visits stand against "
                  + plan.visits()
                  + " authorized to "
                  + Days.full(plan.lastDay())
                  + ": "
                  + over
                  + " too many.");
        }
      }
    }
    return against;
  }

  private static String warning(
      List<CarePlan> plans,
      LocalDate day,
      Instant start,
      List<LocalDate> days,
      List<Instant> starts) {
    CarePlan covering = plans.stream().filter(plan -> plan.covers(day)).findFirst().orElse(null);
    if (covering == null) {
      return "No plan of care covers this day; the last one ends "
          + Days.full(plans.get(plans.size() - 1).last())
          + ".";
    }
    if (covering.visits == null) {
      return null;
    }
    int nth = 1;
    for (int i = 0; i < starts.size(); i++) {
      nth += covering.covers(days.get(i)) && starts.get(i).isBefore(start) ? 1 : 0;
    }
    return nth <= covering.visits
        ? null
        : "Visit " + nth + " of " + covering.visits + " authorized.";
  }

  private List<Object[]> visits(
      Collection<Long> patientIds, LocalDate first, LocalDate last, ZoneId zone) {
    return em.createQuery(
            "select a.patientId, a.startsAt, a.state from Appointment a where a.patientId in ?1"
                + " and a.state in ?2 and a.startsAt >= ?3 and a.startsAt < ?4",
            Object[].class)
        .setParameter(1, patientIds)
        .setParameter(2, AppointmentState.STANDING)
        .setParameter(3, first.atStartOfDay(zone).toInstant())
        .setParameter(4, last.plusDays(1).atStartOfDay(zone).toInstant())
        .getResultList();
  }

  /**
   * Enters a plan of care.
   *
   * @return its number
   */
  @Transactional
  Long enter(NewCarePlan entry) {
    PatientView patient = patients.byId(entry.patientId());
    Refusals refusals = new Refusals();
    if (entry.firstDay() == null) {
      refusals.add("firstDay", "On which day does it begin?");
    }
    if (entry.lastDay() == null) {
      refusals.add("lastDay", "Until which day does it run?");
    } else if (entry.firstDay() != null && entry.lastDay().isBefore(entry.firstDay())) {
      refusals.add("lastDay", "It ends before it begins.");
    }
    if (entry.visits() != null && !(entry.visits() >= 1 && entry.visits() <= MOST_VISITS)) {
      refusals.add("visits", "Visits: a whole number from 1 to " + MOST_VISITS + ", or blank.");
    }
    if (entry.authorizedBy() != null && entry.authorizedBy().length() > 120) {
      refusals.add("authorizedBy", "At most 120 characters.");
    }
    refusals.throwIfAny();
    CarePlan row = new CarePlan();
    row.patientId = patient.id();
    row.firstDay = entry.firstDay();
    row.lastDay = entry.lastDay();
    row.visits = entry.visits();
    row.authorizedBy =
        entry.authorizedBy() == null || entry.authorizedBy().isBlank()
            ? null
            : entry.authorizedBy().strip();
    persistAndFlush(row);
    trail.record(
        Subject.of("patient", patient.id()), "plan of care entered", times.now(), null, entry);
    return row.id;
  }

  /** Ends a plan today; it covers no later day. */
  @Transactional
  void end(Long patientId, Long id) {
    PatientView patient = patients.byId(patientId);
    CarePlan row = id == null ? null : findById(id);
    if (row == null || !row.patientId.equals(patient.id())) {
      throw new NotFound("There is no such plan of care.");
    }
    if (row.endedOn == null) {
      LocalDate today = locations.today(patient.locationId());
      row.endedOn = today.isBefore(row.firstDay) ? row.firstDay : today;
      trail.record(
          Subject.of("patient", patient.id()),
          "plan of care ended",
          times.now(),
          null,
          row.endedOn);
    }
  }
}
