package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.appointments.PlannedDay.DayUnit;
import clinic.stimshelf.appointments.PlannedDay.How;
import clinic.stimshelf.appointments.PlannedDay.Line;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.BusyUnit;
import clinic.stimshelf.calc.plan.KeptPlan;
import clinic.stimshelf.calc.plan.Treatment;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The unit plan of a day. It is written down as soon as something is booked, moved or called off,
 * and moves as few treatments as can be; units named by hand are planned around.
 */
@ApplicationScoped
class UnitPlans {
  @Inject AppointmentRows rows;
  @Inject ResourceDays days;
  @Inject LoanedUnits loanedUnits;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** The plan as it should be, whatever is written down. Changes nothing. */
  @Transactional
  PlannedDay of(Long locationId, LocalDate day) {
    signedIn.requireLocation(locationId);
    ZoneId zone = locations.zone(locationId);
    List<Appointment> treatments =
        rows.treatments(
            locationId,
            day.atStartOfDay(zone).toInstant(),
            day.plusDays(1).atStartOfDay(zone).toInstant());
    List<UnitView> units = shelf.at(locationId);
    return planning(day, zone, locations.settings(locationId), units, brought(treatments))
        .plan(locationId, treatments, KeptPlan::of);
  }

  /** For looks at many days with what was read once. */
  Planning planning(
      LocalDate day,
      ZoneId zone,
      LocationSettings settings,
      List<UnitView> units,
      Map<Long, Own> own) {
    return new Planning(day, zone, settings, units, own, clock.instant());
  }

  /** Units at the patients' homes, by patient. */
  Map<Long, Own> brought(List<Appointment> treatments) {
    Map<Long, LoanedUnits.Loaned> loaned =
        loanedUnits.of(treatments.stream().map(row -> row.patientId).collect(Collectors.toSet()));
    Map<Long, UnitView> units =
        shelf.byIds(loaned.values().stream().map(LoanedUnits.Loaned::unitId).toList());
    Map<Long, Own> own = new HashMap<>();
    loaned.forEach((patient, loan) -> own.put(patient, new Own(loan, units.get(loan.unitId()))));
    return own;
  }

  /** A unit that a patient has at home. */
  record Own(LoanedUnits.Loaned loan, UnitView unit) {
    boolean serves(Appointment row, LocalDate day) {
      return !row.loanedForgotten
          && !loan.dueOn().isBefore(day)
          && unit.channels() >= row.channels
          && (row.unitId == null || row.unitPlanned || row.unitId.equals(unit.id()));
    }
  }

  /**
   * Writes the plan of a day down after something about it changed.
   *
   * @return what another unit was planned for, or none any more
   */
  @Transactional
  List<Line> follow(Long locationId, LocalDate day) {
    if (day.isBefore(locations.today(locationId))) {
      return List.of();
    }
    days.lock(day, locationId, null);
    List<Line> differing = of(locationId, day).differing();
    for (Line line : differing) {
      Appointment row = rows.findById(line.appointmentId());
      Appointment.Facts before = row.facts();
      row.unitId = line.how() == How.BROUGHT ? null : line.unitId();
      row.unitPlanned = row.unitId != null;
      trail.record(
          Subject.of("appointment", row.id),
          row.locationId,
          row.unitId == null ? "unit no longer planned" : "unit planned",
          times.now(),
          before,
          row.facts());
    }
    rows.flush();
    return differing;
  }

  /** The same, asked for by a person. */
  @Retried
  @Transactional
  List<Line> takeOver(Long locationId, LocalDate day) {
    signedIn.requireLocation(locationId);
    return follow(locationId, day);
  }

  /** Lays treatments of one day on units. */
  static final class Planning {
    private final LocalDate day;
    private final ZoneId zone;
    private final Instant now;
    private final Duration setUp;
    private final Duration wipe;
    private final Map<Long, Own> own;
    private final DayUnits fleet;
    private final Map<Long, UnitView> byId;

    Planning(
        LocalDate day,
        ZoneId zone,
        LocationSettings settings,
        List<UnitView> units,
        Map<Long, Own> own,
        Instant now) {
      this.day = day;
      this.now = now;
      this.zone = zone;
      this.setUp = Duration.ofMinutes(settings.whole(Setting.TREATMENT_SETUP_MINUTES));
      this.wipe = Duration.ofMinutes(settings.whole(Setting.TREATMENT_WIPE_MINUTES));
      this.own = own;
      this.fleet = DayUnits.of(units, day, zone, now, settings);
      this.byId = units.stream().collect(Collectors.toMap(UnitView::id, Function.identity()));
    }

    PlannedDay plan(Long locationId, List<Appointment> treatments, Solver solver) {
      Map<Long, Line> fixed = new LinkedHashMap<>();
      List<Treatment> open = new ArrayList<>();
      Map<String, String> standing = new HashMap<>();
      for (Appointment row : treatments) {
        Line line = fixed(row);
        if (line != null) {
          fixed.put(row.id, line);
        } else if (row.treatmentEndsAt.isAfter(now)) {
          // What is left of it: a unit may fail in the middle.
          Span<Instant> span = row.unitSpan(setUp, wipe);
          Span<Instant> left = span.start().isBefore(now) ? Span.of(now, span.end()) : span;
          open.add(
              new Treatment(
                  row.id.toString(), local(left), row.channels, row.patientId.toString()));
          if (row.unitId != null) {
            standing.put(row.id.toString(), row.unitId.toString());
          }
        }
      }
      List<BusyUnit> units =
          fleet.serving().stream().map(unit -> busy(unit, fixed.values())).toList();
      KeptPlan plan = solver.plan(units, open, standing);
      List<Line> lines = new ArrayList<>();
      for (Appointment row : treatments) {
        lines.add(fixed.containsKey(row.id) ? fixed.get(row.id) : planned(row, plan));
      }
      return new PlannedDay(
          locationId,
          day,
          zone,
          lines,
          fleet.serving(),
          fleet.out(),
          peak(lines),
          plan.servedProven());
    }

    /** What the plan leaves alone, or {@code null} where it may choose. */
    private Line fixed(Appointment row) {
      Span<Instant> span = row.unitSpan(setUp, wipe);
      if (row.unitInUse) {
        Instant end = now.plus(wipe);
        Span<Instant> runs = end.isAfter(span.end()) ? Span.of(span.start(), end) : span;
        return line(row, runs, How.RUNS, row.unitId, null);
      }
      Own home = own.get(row.patientId);
      if (home != null && home.serves(row, day)) {
        return new Line(
            row.id,
            row.patientId,
            span,
            row.channels,
            How.BROUGHT,
            home.unit().id(),
            home.unit().tag(),
            row.unitId,
            null);
      }
      return row.unitId == null || row.unitPlanned
          ? null
          : line(row, span, How.BY_HAND, row.unitId, problem(row, span));
    }

    private String problem(Appointment row, Span<Instant> span) {
      for (DayUnit one : fleet.serving()) {
        if (one.unit().id().equals(row.unitId)) {
          return one.busy().entrySet().stream()
              .filter(busy -> busy.getKey().overlaps(span))
              .map(busy -> one.unit().tag() + " is " + busy.getValue() + " at that time.")
              .findFirst()
              .orElse(null);
        }
      }
      UnitView unit = byId.get(row.unitId);
      return unit == null
          ? "The unit named is not at this location."
          : fleet.out().stream()
              .filter(out -> out.unitTag().equals(unit.tag()))
              .map(out -> unit.tag() + ": " + out.reason() + ".")
              .findFirst()
              .orElse(null);
    }

    private Line planned(Appointment row, KeptPlan plan) {
      String unit = plan.unitOf().get(row.id.toString());
      boolean past = !plan.unserved().contains(row.id.toString()) && unit == null;
      Long unitId = past ? row.unitId : unit == null ? null : Long.valueOf(unit);
      How how = unitId == null ? How.NONE : How.PLANNED;
      return line(row, row.unitSpan(setUp, wipe), how, unitId, null);
    }

    private Line line(Appointment row, Span<Instant> span, How how, Long unitId, String problem) {
      UnitView unit = unitId == null ? null : byId.get(unitId);
      return new Line(
          row.id,
          row.patientId,
          span,
          row.channels,
          how,
          unitId,
          unit == null ? null : unit.tag(),
          row.unitId,
          problem);
    }

    private BusyUnit busy(DayUnit one, Iterable<Line> fixed) {
      List<Span<LocalDateTime>> busy = new ArrayList<>();
      one.busy().keySet().forEach(span -> busy.add(local(span)));
      for (Line line : fixed) {
        if (line.how() != How.BROUGHT && one.unit().id().equals(line.unitId())) {
          busy.add(local(line.span()));
        }
      }
      return new BusyUnit(one.unit().id().toString(), one.unit().channels(), busy);
    }

    private static int peak(List<Line> lines) {
      int peak = 0;
      for (Line line : lines) {
        Instant moment = line.span().start();
        int at = 0;
        for (Line other : lines) {
          at += other.how() != How.BROUGHT && other.span().contains(moment) ? 1 : 0;
        }
        peak = Math.max(peak, at);
      }
      return peak;
    }
  }

  /** How much is spent on a plan. */
  interface Solver {
    KeptPlan plan(List<BusyUnit> units, List<Treatment> treatments, Map<String, String> now);
  }

  /** In UTC, where no hour comes twice. */
  private static Span<LocalDateTime> local(Span<Instant> span) {
    return Span.of(
        LocalDateTime.ofInstant(span.start(), ZoneOffset.UTC),
        LocalDateTime.ofInstant(span.end(), ZoneOffset.UTC));
  }
}
