package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.VisitRun;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Runs of appointments: the best one among the free times, and booking all of it or none. */
@ApplicationScoped
class Runs {
  /** Free times that the search weighs against one another at most. */
  private static final int MOST_TIMES = 2_400;

  @Inject AppointmentRows rows;
  @Inject Appointments appointments;
  @Inject BookingRules rules;
  @Inject FreeTimes free;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject SignedIn signedIn;
  @Inject TherapistTimes therapistTimes;
  @Inject CarePlans carePlans;
  @Inject EventTimes eventTimes;
  @Inject Clock clock;

  /**
   * The best run, booked by nobody yet.
   *
   * @throws Refusal with everything about the wish that is out of range
   */
  @Transactional
  RunProposal propose(RunWish wish) {
    signedIn.requireLocation(wish.locationId());
    wish.check(locations.today(wish.locationId()));
    Map<Long, StaffView> therapists =
        staff.therapistsAt(wish.locationId()).stream()
            .collect(Collectors.toMap(StaffView::id, Function.identity()));
    if (therapists.isEmpty()) {
      throw new Refusal(
          "therapist", "Nobody who treats works at this location.", "Name them under Staff.");
    }
    if (wish.preferredId() != null && !therapists.containsKey(wish.preferredId())) {
      throw new Refusal("therapist", "The preferred therapist does not work at this location.");
    }
    ZoneId zone = locations.zone(wish.locationId());
    Times times = times(wish, therapists, zone);
    VisitRun<Instant> run =
        VisitRun.of(
            times.slots(),
            new VisitRun.Wish(
                wish.visits(),
                wish.perWeek(),
                wish.hoursApart(),
                wish.from().with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY)),
                wish.preferredId() == null ? null : wish.preferredId().toString()));
    List<RunProposal.Visit> visits =
        run.visits().stream()
            .map(
                slot -> {
                  Long who = Long.valueOf(slot.therapist());
                  return new RunProposal.Visit(
                      slot.id().atZone(zone), who, therapists.get(who).name());
                })
            .toList();
    return new RunProposal(
        visits,
        visits.size() == wish.visits(),
        wish.horizon(),
        RunWords.why(run, wish, therapists.get(wish.preferredId()), times.nearestOnly()),
        carePlans.against(
            wish.patientId(), visits.stream().map(visit -> visit.at().toLocalDate()).toList()));
  }

  /**
   * Books every visit or none.
   *
   * @return their numbers, in the order given
   * @throws Refusal with every visit that cannot be booked and why
   */
  @Retried
  @Transactional
  List<Long> book(RunWish wish, List<RunProposal.Visit> visits) {
    signedIn.requireLocation(wish.locationId());
    wish.check(locations.today(wish.locationId()));
    ZoneId zone = locations.zone(wish.locationId());
    Refusals refusals = new Refusals();
    if (visits.isEmpty()) {
      refusals.add("visits", "No appointment is chosen.", "Ask for a proposal first.");
    }
    List<Long> booked = new ArrayList<>();
    for (RunProposal.Visit visit :
        visits.stream().sorted(Comparator.comparing(RunProposal.Visit::start)).toList()) {
      NewAppointment wanted = wish.visit(visit.start(), visit.therapistId());
      String when = Days.words(visit.start().atZone(zone)) + ": ";
      try {
        rules.check(wanted, null);
        booked.add(appointments.enter(wanted, eventTimes.now()));
      } catch (InUse taken) {
        refusals.add("visits", when + taken.getMessage());
      } catch (Refusal refused) {
        for (Reason reason : refused.reasons()) {
          refusals.add("visits", when + reason.message(), reason.cure());
        }
      }
    }
    refusals.throwIfAny();
    return booked;
  }

  private Times times(RunWish wish, Map<Long, StaffView> therapists, ZoneId zone) {
    LocalDate last = wish.horizon();
    Instant begin = wish.from().atStartOfDay(zone).toInstant();
    Instant end = last.plusDays(1).atStartOfDay(zone).toInstant();
    List<Taken> others = rows.taken(wish.patientId(), wish.roomId(), null, begin, end, null);
    Map<Long, List<Span<Instant>>> busy = rows.ofTherapists(therapists.keySet(), begin, end);
    Roster roster =
        therapistTimes.roster(
            therapists.keySet(),
            locations.settings(wish.locationId()).whole(Setting.PATIENTS_AT_ONCE),
            wish.from(),
            last,
            zone);
    NewAppointment any = wish.visit(wish.from().atTime(wish.at()).atZone(zone).toInstant(), null);
    Collisions collisions = free.collisions(any);
    Map<LocalDate, List<DayHours>> open = locations.hours(wish.locationId(), wish.from(), last);
    Instant now = clock.instant();
    List<List<VisitRun.Slot<Instant>>> byDay = new ArrayList<>();
    for (LocalDate day = wish.from(); !day.isAfter(last); day = day.plusDays(1)) {
      List<Instant> starts =
          FreeTimes.starts(any, day, zone, open.get(day)).stream()
              .filter(start -> !start.isBefore(now) && collisions.none(any.at(start), others))
              .toList();
      for (StaffView therapist : therapists.values()) {
        List<Span<Instant>> theirs = busy.getOrDefault(therapist.id(), List.of());
        byDay.add(
            starts.stream()
                .filter(
                    start -> roster.hasPlace(therapist.id(), any.at(start).taking().span(), theirs))
                .map(
                    start ->
                        new VisitRun.Slot<>(
                            start,
                            start.atZone(zone).toLocalDateTime(),
                            therapist.id().toString(),
                            minutesOff(wish.at(), start.atZone(zone).toLocalTime())))
                .toList());
      }
    }
    return nearest(byDay);
  }

  /** All of them where they are not too many to search; else on each day those near the wish. */
  private static Times nearest(List<List<VisitRun.Slot<Instant>>> byDay) {
    int all = byDay.stream().mapToInt(List::size).sum();
    long aDay = all <= MOST_TIMES ? all : Math.max(1, MOST_TIMES / byDay.size());
    return new Times(
        byDay.stream().flatMap(day -> day.stream().limit(aDay)).toList(), all > MOST_TIMES);
  }

  /**
   * Free times of the therapists.
   *
   * @param nearestOnly whether times far from the wish were left out
   */
  private record Times(List<VisitRun.Slot<Instant>> slots, boolean nearestOnly) {}

  private static int minutesOff(LocalTime wished, LocalTime start) {
    return (int) Duration.between(wished, start).abs().toMinutes();
  }
}
