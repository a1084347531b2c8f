package clinic.stimshelf.desk;

import clinic.stimshelf.appointments.AppointmentView;
import clinic.stimshelf.appointments.Appointments;
import clinic.stimshelf.desk.TodayView.Chore;
import clinic.stimshelf.desk.TodayView.ComingIn;
import clinic.stimshelf.desk.TodayView.GoingOut;
import clinic.stimshelf.desk.TodayView.Late;
import clinic.stimshelf.desk.TodayView.OnShelf;
import clinic.stimshelf.loans.Departure;
import clinic.stimshelf.loans.Departures;
import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.ReminderDays;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What the front desk must do now. However many loans and units there are, the database is asked
 * the same number of questions for a location.
 */
@ApplicationScoped
public class Today {
  /** Requests for later days are no matter of today. */
  private static final int DAYS_AHEAD = 7;

  private static final Duration SOON = Duration.ofHours(2);

  @Inject Departures departures;
  @Inject Loans loans;
  @Inject Appointments appointments;
  @Inject Shelf shelf;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Contacts contacts;
  @Inject Clock clock;

  /** The day of several locations in one. */
  @Transactional
  public TodayView at(Collection<Long> locationIds) {
    List<TodayView> days = locationIds.stream().map(this::at).toList();
    return new TodayView(
        joined(days, TodayView::goingOut),
        joined(days, TodayView::comingIn),
        joined(days, TodayView::late),
        joined(days, TodayView::appointments),
        joined(days, TodayView::toWipe),
        joined(days, TodayView::toInspect),
        joined(days, TodayView::toCharge),
        joined(days, TodayView::ready));
  }

  @Transactional
  public TodayView at(Long locationId) {
    return at(locationId, shelf.at(locationId));
  }

  /** The same from units that were read already. */
  @Transactional
  public TodayView at(Long locationId, List<UnitView> units) {
    LocationView place = locations.byId(locationId);
    Instant now = clock.instant();
    LocalDate today = LocalDate.ofInstant(now, place.zone());
    List<LoanView> out =
        loans.openAt(locationId).stream().filter(loan -> loan.state() == LoanState.OUT).toList();
    List<Departure> waiting =
        departures.at(locationId, units).stream()
            .filter(one -> !one.neededFrom().isAfter(today.plusDays(DAYS_AHEAD)))
            .toList();
    Map<Long, PatientView> who = who(out, waiting);
    // Whoever died is nobody to wait for, to call or to hand a unit to.
    out = out.stream().filter(loan -> lives(who, Long.valueOf(loan.patientId()))).toList();
    waiting = waiting.stream().filter(one -> lives(who, one.patientId())).toList();
    List<AppointmentView> visits =
        appointments
            .between(
                locationId,
                today.atStartOfDay(place.zone()).toInstant(),
                today.plusDays(1).atStartOfDay(place.zone()).toInstant())
            .stream()
            .filter(visit -> !visit.state().over())
            .toList();
    Map<Long, Instant> comesAt =
        visits.stream()
            .collect(
                Collectors.toMap(
                    AppointmentView::patientId,
                    AppointmentView::startsAt,
                    (first, later) -> first.isBefore(later) ? first : later));
    boolean closed = !now.isBefore(locations.closingTime(locationId, today));
    List<LoanView> late = new ArrayList<>();
    List<LoanView> coming = new ArrayList<>();
    for (LoanView loan : out) {
      if (isLate(loan.dueOn(), today, closed)) {
        late.add(loan);
      } else if (loan.dueOn().equals(today) || today.equals(loan.bringInOn())) {
        coming.add(loan);
      }
    }
    return new TodayView(
        waiting.stream()
            .map(one -> goingOut(one, who, place, comesAt.get(one.patientId())))
            .sorted(
                Comparator.comparing(
                    GoingOut::appointmentAt, Comparator.nullsLast(Comparator.naturalOrder())))
            .toList(),
        coming.stream()
            .map(loan -> comingIn(loan, who, today, comesAt.get(Long.valueOf(loan.patientId()))))
            .sorted(
                Comparator.comparing(
                    ComingIn::appointmentAt, Comparator.nullsLast(Comparator.naturalOrder())))
            .toList(),
        late(late, who, today),
        visits.stream()
            .filter(visit -> visit.startsAt().isBefore(now.plus(SOON)))
            .map(UnitsOfVisits::notReady)
            .filter(Objects::nonNull)
            .toList(),
        chores(units, UnitState.TO_WIPE, now),
        chores(units, UnitState.TO_INSPECT, now),
        units.stream()
            .filter(unit -> unit.state() == UnitState.READY && !unit.charged())
            .map(unit -> chore(unit, now))
            .toList(),
        units.stream()
            .filter(unit -> unit.state() == UnitState.READY && unit.charged() && !unit.testDue())
            .map(
                unit ->
                    new OnShelf(
                        unit.tag(), unit.kind(), unit.channels(), unit.location(), unit.spot()))
            .toList());
  }

  /** A loan is late from the closing time of its due day on. */
  static boolean isLate(LocalDate dueOn, LocalDate today, boolean closed) {
    return dueOn.isBefore(today) || (dueOn.equals(today) && closed);
  }

  private Map<Long, PatientView> who(List<LoanView> out, List<Departure> waiting) {
    Set<Long> ids = new HashSet<>();
    out.forEach(loan -> ids.add(Long.valueOf(loan.patientId())));
    waiting.forEach(one -> ids.add(one.patientId()));
    return patients.byIds(ids);
  }

  private static boolean lives(Map<Long, PatientView> who, Long patientId) {
    return who.get(patientId).diedOn() == null;
  }

  private static GoingOut goingOut(
      Departure one, Map<Long, PatientView> who, LocationView place, Instant appointmentAt) {
    PatientView patient = who.get(one.patientId());
    return new GoingOut(
        String.valueOf(one.requestId()),
        String.valueOf(one.programId()),
        String.valueOf(one.patientId()),
        patient.chartNumber(),
        patient.name(),
        place.code(),
        one.neededFrom(),
        one.unitTag(),
        one.unitWhy(),
        one.dueOn(),
        one.treats(),
        appointmentAt,
        one.missing());
  }

  private static ComingIn comingIn(
      LoanView loan, Map<Long, PatientView> who, LocalDate today, Instant appointmentAt) {
    PatientView patient = who.get(Long.valueOf(loan.patientId()));
    return new ComingIn(
        loan.id(),
        loan.unitTag(),
        loan.patientId(),
        patient.chartNumber(),
        patient.name(),
        loan.location(),
        loan.dueOn(),
        0,
        appointmentAt,
        !loan.dueOn().equals(today));
  }

  private List<Late> late(List<LoanView> late, Map<Long, PatientView> who, LocalDate today) {
    List<Long> ids = late.stream().map(loan -> Long.valueOf(loan.id())).toList();
    Map<Long, ContactView> last = contacts.lastAbout(ids);
    Map<Long, List<ReminderDays.Rung>> ladders = loans.ladders(ids);
    return late.stream()
        .sorted(Comparator.comparing(LoanView::dueOn).thenComparing(LoanView::unitTag))
        .map(
            loan -> {
              PatientView patient = who.get(Long.valueOf(loan.patientId()));
              ReminderDays.Rung next =
                  ladders.get(Long.valueOf(loan.id())).stream()
                      .filter(rung -> !rung.day().isBefore(today))
                      .findFirst()
                      .orElse(null);
              return new Late(
                  loan.id(),
                  loan.unitTag(),
                  loan.patientId(),
                  patient.chartNumber(),
                  patient.name(),
                  loan.location(),
                  loan.dueOn(),
                  ChronoUnit.DAYS.between(loan.dueOn(), today),
                  next == null ? null : next.words(),
                  next == null ? null : next.day(),
                  last.get(Long.valueOf(loan.id())));
            })
        .toList();
  }

  private static List<Chore> chores(List<UnitView> units, UnitState state, Instant now) {
    return units.stream()
        .filter(unit -> unit.state() == state)
        .sorted(
            Comparator.comparing(
                    UnitView::readyAt, Comparator.nullsFirst(Comparator.naturalOrder()))
                .thenComparing(UnitView::tag))
        .map(unit -> chore(unit, now))
        .toList();
  }

  private static Chore chore(UnitView unit, Instant now) {
    return new Chore(
        unit.tag(),
        unit.kindName(),
        unit.location(),
        unit.state(),
        unit.stateSince(),
        unit.readyAt(),
        unit.heldUntil(),
        unit.readyAt() == null
            ? null
            : (Duration.between(now, unit.readyAt()).toSeconds() + 59) / 60);
  }

  private static <T> List<T> joined(
      List<TodayView> days, java.util.function.Function<TodayView, List<T>> list) {
    return days.stream().map(list).flatMap(List::stream).toList();
  }
}
