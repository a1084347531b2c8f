package clinic.stimshelf.appointments;

import clinic.stimshelf.appointments.PlannedDay.DayUnit;
import clinic.stimshelf.appointments.PlannedDay.OutOfPlan;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.shelf.Purpose;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Days;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which units can serve treatments on a day, and when not: loans, wipes, charging and safety tests
 * are respected. What a unit waits for today it is taken to have got by tomorrow.
 */
final class DayUnits {
  private final ZoneId zone;
  private final LocalDate day;
  private final Instant now;
  private final LocationSettings settings;
  private final boolean today;
  private final List<DayUnit> serving = new ArrayList<>();
  private final List<OutOfPlan> out = new ArrayList<>();

  private DayUnits(LocalDate day, ZoneId zone, Instant now, LocationSettings settings) {
    this.zone = zone;
    this.day = day;
    this.now = now;
    this.settings = settings;
    this.today = LocalDate.ofInstant(now, zone).equals(day);
  }

  static DayUnits of(
      List<UnitView> units, LocalDate day, ZoneId zone, Instant now, LocationSettings settings) {
    DayUnits sorted = new DayUnits(day, zone, now, settings);
    units.stream()
        .sorted(
            Comparator.comparingInt(UnitView::channels)
                .thenComparing(unit -> !unit.charged())
                .thenComparing(
                    UnitView::nextTestOn,
                    Comparator.nullsLast(Comparator.<LocalDate>reverseOrder()))
                .thenComparing(UnitView::tag))
        .forEach(sorted::sort);
    return sorted;
  }

  List<DayUnit> serving() {
    return serving;
  }

  List<OutOfPlan> out() {
    return out;
  }

  private void sort(UnitView unit) {
    String reason = whyNotAllDay(unit);
    if (reason == null) {
      serving.add(new DayUnit(unit, busy(unit)));
    } else {
      out.add(new OutOfPlan(unit.tag(), reason));
    }
  }

  private String whyNotAllDay(UnitView unit) {
    if (unit.purpose().equals(Purpose.HOME.word())) {
      return "serves home loans only";
    }
    if (unit.state() == UnitState.OUT_OF_SERVICE
        || unit.state() == UnitState.MISSING
        || unit.state() == UnitState.RETIRED) {
      return unit.state().words();
    }
    if (unit.nextTestOn() == null || unit.nextTestOn().isBefore(day)) {
      return "its safety test is overdue by then";
    }
    if (unit.state() == UnitState.TO_INSPECT && today) {
      return "to inspect first";
    }
    if (unit.state() == UnitState.RESERVED && unit.reservedFor() != UseKind.TREATMENT) {
      return "reserved";
    }
    return unit.state() == UnitState.ON_LOAN ? away(unit) : null;
  }

  /** A unit that is out counts from the day it is ready again; a late one is not counted on. */
  private String away(UnitView unit) {
    Instant until = unit.use() == null ? null : unit.use().until();
    if (until == null || !until.isAfter(now)) {
      return until == null ? "on loan" : "on loan and late";
    }
    LocalDate ready =
        LocalDate.ofInstant(until, zone)
            .plusDays((long) Math.ceil(settings.number(Setting.TURNAROUND_DAYS)));
    return ready.isAfter(day) ? "on loan, ready " + Days.shortly(ready) : null;
  }

  private Map<Span<Instant>, String> busy(UnitView unit) {
    Map<Span<Instant>, String> busy = new LinkedHashMap<>();
    if (!today) {
      return busy;
    }
    Instant midnight = day.atStartOfDay(zone).toInstant();
    if (unit.state() == UnitState.TO_WIPE) {
      Duration wipe = Duration.ofMinutes(settings.whole(Setting.TREATMENT_WIPE_MINUTES));
      add(
          busy,
          midnight,
          unit.cleanFrom(now.plus(wipe)),
          unit.heldUntil() == null ? "to wipe" : "held");
    }
    if (!unit.charged() && unit.state() != UnitState.IN_TREATMENT) {
      Duration charge = Duration.ofMinutes(settings.whole(Setting.CHARGE_MINUTES));
      Instant full = (unit.charging() ? unit.chargingSince() : now).plus(charge);
      add(busy, midnight, full, unit.charging() ? "charging" : "to charge");
    }
    return busy;
  }

  private static void add(Map<Span<Instant>, String> busy, Instant from, Instant to, String words) {
    if (to.isAfter(from)) {
      busy.put(Span.of(from, to), words);
    }
  }
}
