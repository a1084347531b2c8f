package clinic.stimshelf.shelf;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** Which units could serve instead, now or next. */
@ApplicationScoped
class FreeUnits {
  private static final Duration UNSAID = Duration.ofHours(1);
  private static final int NAMED = 3;

  @Inject Units units;
  @Inject ShelfViews views;
  @Inject Locations locations;
  @Inject @Any Instance<UnitBusy> bookings;
  @Inject Clock clock;

  List<UnitView> candidates(
      Long locationId, int channels, Set<String> connectors, Purpose purpose) {
    List<Unit> fitting =
        units.at(locationId).stream()
            .filter(unit -> unit.kind.channels >= channels)
            .filter(unit -> connectors.isEmpty() || connectors.contains(unit.kind.connector))
            .filter(unit -> purpose == null || unit.purpose.serves(purpose))
            .filter(unit -> purpose != Purpose.HOME || unit.kind.lendsOut)
            .filter(unit -> unit.state != UnitState.RETIRED && unit.state != UnitState.MISSING)
            .toList();
    return views.of(fitting).stream()
        .sorted(
            Comparator.comparingInt(FreeUnits::rank)
                .thenComparing(UnitView::testDue)
                .thenComparing(unit -> !unit.charged())
                .thenComparingInt(UnitView::channels)
                .thenComparing(
                    UnitView::nextTestOn,
                    Comparator.nullsLast(Comparator.<LocalDate>reverseOrder()))
                .thenComparing(UnitView::tag))
        .toList();
  }

  /** One sentence: what is free for the time in place of this unit, or what comes free next. */
  String words(Unit taken, Instant from, Instant until) {
    Instant end = until == null ? from.plus(UNSAID) : until;
    List<UnitView> alike =
        candidates(taken.locationId, taken.kind.channels, Set.of(taken.kind.connector), null)
            .stream()
            .filter(unit -> !unit.id().equals(taken.id) && !unit.testDue())
            .toList();
    List<UnitView> ready = alike.stream().filter(unit -> unit.state() == UnitState.READY).toList();
    Set<Long> booked = booked(ready, from, end);
    String free =
        ready.stream()
            .filter(unit -> !booked.contains(unit.id()))
            .limit(NAMED)
            .map(UnitView::tag)
            .collect(Collectors.joining(", "));
    if (!free.isEmpty()) {
      return "Free now: " + free + ".";
    }
    ZoneId zone = locations.zone(taken.locationId);
    Instant now = clock.instant();
    return alike.stream()
        .filter(unit -> unit.readyAt() != null)
        .min(Comparator.comparing(UnitView::readyAt))
        .map(unit -> "Next: " + unit.tag() + ", wiped, from " + time(unit.readyAt(), zone) + ".")
        .or(
            () ->
                alike.stream()
                    .filter(unit -> unit.use() != null && unit.use().until() != null)
                    .filter(unit -> unit.use().until().isAfter(now))
                    .min(Comparator.comparing(unit -> unit.use().until()))
                    .map(
                        unit ->
                            "Next: "
                                + unit.tag()
                                + ", expected back "
                                + time(unit.use().until(), zone)
                                + "."))
        .orElse("No other unit like it is free.");
  }

  static String time(Instant instant, ZoneId zone) {
    return Days.words(instant.atZone(zone));
  }

  private Set<Long> booked(List<UnitView> ready, Instant from, Instant to) {
    List<Long> ids = ready.stream().map(UnitView::id).toList();
    return bookings.stream()
        .flatMap(room -> room.busy(ids, from, to).stream())
        .map(UnitBusy.BusySpan::unitId)
        .collect(Collectors.toSet());
  }

  private static int rank(UnitView unit) {
    return switch (unit.state()) {
      case READY -> 0;
      case RESERVED -> 1;
      case TO_WIPE -> 2;
      case TO_INSPECT -> 3;
      case IN_TREATMENT -> 4;
      case ON_LOAN -> 5;
      case OUT_OF_SERVICE -> 6;
      case MISSING, RETIRED -> 7;
    };
  }
}
