package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.appointments.PlannedDay.How;
import clinic.stimshelf.appointments.PlannedDay.Line;
import clinic.stimshelf.calc.plan.KeptPlan;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.shelf.NeededHere;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * Until when a unit can be lent: on the first day on which the plan serves fewer treatments without
 * it, it must be back. With three questions to the database, however many days are looked at.
 */
@ApplicationScoped
class LendLimits implements NeededHere {
  @Inject AppointmentRows rows;
  @Inject UnitPlans plans;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  @Override
  @Transactional
  public Map<Long, LentUntil> lentUntil(Long locationId, Long patientId) {
    signedIn.requireLocation(locationId);
    ZoneId zone = locations.zone(locationId);
    LocalDate today = locations.today(locationId);
    List<Appointment> all =
        rows
            .treatments(
                locationId,
                clock.instant(),
                today.plusDays(DAYS_AHEAD + 1L).atStartOfDay(zone).toInstant())
            .stream()
            .filter(row -> !row.patientId.equals(patientId))
            .toList();
    Map<LocalDate, List<Appointment>> byDay =
        all.stream()
            .collect(
                Collectors.groupingBy(
                    row -> LocalDate.ofInstant(row.startsAt, zone),
                    TreeMap::new,
                    Collectors.toList()));
    List<UnitView> units = shelf.at(locationId);
    Map<Long, UnitPlans.Own> own = plans.brought(all);
    LocationSettings settings = locations.settings(locationId);
    long turnaround = (long) Math.ceil(settings.number(Setting.TURNAROUND_DAYS));
    Map<Long, LentUntil> limits = new HashMap<>();
    byDay.forEach(
        (day, treatments) -> {
          for (Long unit : needed(locationId, day, zone, treatments, units, own, settings)) {
            limits.computeIfAbsent(unit, id -> limit(day, treatments, id, turnaround));
          }
        });
    return limits;
  }

  private Set<Long> needed(
      Long locationId,
      LocalDate day,
      ZoneId zone,
      List<Appointment> treatments,
      List<UnitView> units,
      Map<Long, UnitPlans.Own> own,
      LocationSettings settings) {
    PlannedDay with =
        plans
            .planning(day, zone, settings, units, own)
            .plan(locationId, treatments, KeptPlan::quick);
    Set<Long> needed = new HashSet<>();
    Set<Long> planned = new HashSet<>();
    for (Line line : with.lines()) {
      if (line.how() == How.BY_HAND) {
        needed.add(line.unitId());
      } else if (line.how() == How.PLANNED) {
        planned.add(line.unitId());
      }
    }
    planned.removeAll(needed);
    for (Long unit : planned) {
      List<UnitView> fewer = units.stream().filter(one -> !one.id().equals(unit)).toList();
      PlannedDay without =
          plans
              .planning(day, zone, settings, fewer, own)
              .plan(locationId, treatments, KeptPlan::quick);
      if (without.unserved().size() > with.unserved().size()) {
        needed.add(unit);
      }
    }
    return needed;
  }

  private static LentUntil limit(
      LocalDate day, List<Appointment> treatments, Long unit, long turnaround) {
    boolean byHand =
        treatments.stream().anyMatch(row -> unit.equals(row.unitId) && !row.unitPlanned);
    return new LentUntil(
        day.minusDays(turnaround),
        day,
        byHand
            ? "It is named for a treatment on " + Days.shortly(day) + "."
            : "On "
                + Days.shortly(day)
                + " the treatments booked could not all be served without it.");
  }
}
