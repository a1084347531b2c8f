package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** When therapists are there, and for how many patients at once. */
@ApplicationScoped
class TherapistTimes implements PanacheRepository<TimeOff> {
  private static final int MOST_AT_ONCE = 12;

  @Inject EntityManager em;
  @Inject Staff staff;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;

  /**
   * A time off as entered.
   *
   * @param lastDay {@code null}: the first day alone, or without end if it is weekly
   * @param weekly every week on the first day's weekday
   * @param begins {@code null} with {@code ends}: the whole day
   */
  record NewTimeOff(
      Long staffId,
      OffKind kind,
      LocalDate firstDay,
      LocalDate lastDay,
      boolean weekly,
      LocalTime begins,
      LocalTime ends,
      String words) {}

  /**
   * The roster of those days, both included.
   *
   * @param usual patients at once where a therapist has no number of their own
   */
  @Transactional
  Roster roster(
      Collection<Long> therapistIds, int usual, LocalDate from, LocalDate to, ZoneId zone) {
    Map<Long, Integer> atOnce = new HashMap<>();
    Map<Long, List<Roster.Off>> off = new HashMap<>();
    if (therapistIds.isEmpty()) {
      return new Roster(usual, atOnce, off);
    }
    em.createQuery("from TherapistPlaces p where p.staffId in ?1", TherapistPlaces.class)
        .setParameter(1, therapistIds)
        .getResultList()
        .forEach(row -> atOnce.put(row.staffId, row.atOnce));
    for (TimeOff row :
        list(
            "staffId in ?1 and firstDay <= ?2 and (lastDay is null or lastDay >= ?3)",
            therapistIds,
            to,
            from)) {
      for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
        if (row.on(day)) {
          off.computeIfAbsent(row.staffId, id -> new ArrayList<>())
              .add(new Roster.Off(row.kind, row.words, row.span(day, zone)));
        }
      }
    }
    return new Roster(usual, atOnce, off);
  }

  /** What is entered for the therapists and not over by that day, in order. */
  @Transactional
  List<TimeOff> from(Collection<Long> therapistIds, LocalDate day) {
    return therapistIds.isEmpty()
        ? List.of()
        : list(
            "staffId in ?1 and (lastDay is null or lastDay >= ?2) order by firstDay, begins, id",
            therapistIds,
            day);
  }

  /**
   * Enters a time off. Appointments that lie in it stay and are marked.
   *
   * @return its number
   */
  @Transactional
  Long enter(NewTimeOff entry) {
    Refusals refusals = new Refusals();
    StaffView who = treating(entry.staffId());
    if (entry.kind() == null) {
      refusals.add("kind", "Choose why: break, leave, other work or called out.");
    }
    if (entry.firstDay() == null) {
      refusals.add("firstDay", "From which day on?");
    } else if (entry.lastDay() != null && entry.lastDay().isBefore(entry.firstDay())) {
      refusals.add("lastDay", "The last day lies before the first.");
    }
    if ((entry.begins() == null) != (entry.ends() == null)) {
      refusals.add("begins", "Part of a day needs both times; a whole day has none.");
    } else if (entry.begins() != null && !entry.begins().isBefore(entry.ends())) {
      refusals.add("ends", "It ends after it begins.");
    }
    if (entry.words() != null && entry.words().length() > 200) {
      refusals.add("words", "At most 200 characters.");
    }
    refusals.throwIfAny();
    TimeOff row = new TimeOff();
    row.staffId = who.id();
    row.kind = entry.kind();
    row.firstDay = entry.firstDay();
    row.lastDay = entry.lastDay() == null && !entry.weekly() ? entry.firstDay() : entry.lastDay();
    row.weekday = entry.weekly() ? entry.firstDay().getDayOfWeek().getValue() : null;
    row.begins = entry.begins();
    row.ends = entry.ends();
    row.words = entry.words() == null || entry.words().isBlank() ? null : entry.words().strip();
    persistAndFlush(row);
    trail.record(Subject.of("staff", who.id()), "time off entered", times.now(), null, entry);
    return row.id;
  }

  /** Takes a time off back. */
  @Transactional
  void drop(Long id) {
    TimeOff row = id == null ? null : findById(id);
    if (row == null) {
      throw new NotFound("There is no such time off.");
    }
    treating(row.staffId);
    NewTimeOff before =
        new NewTimeOff(
            row.staffId,
            row.kind,
            row.firstDay,
            row.lastDay,
            row.weekday != null,
            row.begins,
            row.ends,
            row.words);
    delete(row);
    trail.record(
        Subject.of("staff", row.staffId), "time off taken back", times.now(), before, null);
  }

  /** Says how many patients a therapist sees at once; {@code null} for what the location says. */
  @Transactional
  void atOnce(Long staffId, Integer atOnce) {
    StaffView who = treating(staffId);
    Refusals refusals = new Refusals();
    if (atOnce != null && !(atOnce >= 1 && atOnce <= MOST_AT_ONCE)) {
      refusals.add("atOnce", "At once: a whole number from 1 to " + MOST_AT_ONCE + ", or blank.");
    }
    refusals.throwIfAny();
    TherapistPlaces row =
        em.createQuery("from TherapistPlaces p where p.staffId = ?1", TherapistPlaces.class)
            .setParameter(1, staffId)
            .getResultStream()
            .findFirst()
            .orElse(null);
    Integer before = row == null ? null : row.atOnce;
    if (atOnce == null) {
      if (row != null) {
        em.remove(row);
      }
    } else {
      if (row == null) {
        row = new TherapistPlaces();
        row.staffId = staffId;
        row.atOnce = atOnce;
        em.persist(row);
      }
      row.atOnce = atOnce;
    }
    trail.record(Subject.of("staff", who.id()), "patients at once", times.now(), before, atOnce);
  }

  private StaffView treating(Long staffId) {
    StaffView who = staff.byId(staffId);
    if (who.locationIds().stream().noneMatch(signedIn::mayActAt)) {
      throw new NotFound("There is no such staff member at your locations.");
    }
    return who;
  }
}
