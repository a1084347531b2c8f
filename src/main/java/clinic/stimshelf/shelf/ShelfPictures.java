package clinic.stimshelf.shelf;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Draws the shelf of a location from its units. */
@ApplicationScoped
public class ShelfPictures {
  private static final int SHORT = 28;

  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;
  @Inject Locations locations;
  @Inject Clock clock;

  @Transactional
  public ShelfPicture of(Long locationId) {
    return of(locationId, shelf.at(locationId));
  }

  /** The same from units that were read already. */
  @Transactional
  public ShelfPicture of(Long locationId, List<UnitView> units) {
    Instant now = clock.instant();
    ZoneId zone = locations.zone(locationId);
    Map<Long, List<ShelfPicture.Box>> byspot = new LinkedHashMap<>();
    List<SpotView> spots = keeping.spots(locationId);
    spots.forEach(spot -> byspot.put(spot.id(), new ArrayList<>()));
    List<ShelfPicture.Box> loose = new ArrayList<>();
    int out = 0;
    for (UnitView unit : units) {
      ShelfPicture.Box box = box(unit, now, zone);
      byspot.getOrDefault(unit.spotId(), loose).add(box);
      out += box.out() ? 1 : 0;
    }
    List<ShelfPicture.Board> boards = new ArrayList<>();
    spots.forEach(spot -> boards.add(new ShelfPicture.Board(spot.name(), byspot.get(spot.id()))));
    if (!loose.isEmpty()) {
      boards.add(new ShelfPicture.Board("No storage spot yet", loose));
    }
    return new ShelfPicture(List.copyOf(boards), units.size() - out, out);
  }

  private static ShelfPicture.Box box(UnitView unit, Instant now, ZoneId zone) {
    boolean out = unit.state() == UnitState.ON_LOAN || unit.state() == UnitState.MISSING;
    if (unit.state() == UnitState.ON_LOAN && unit.lateAt(now)) {
      LocalDate due = LocalDate.ofInstant(unit.use().until(), zone);
      long days = ChronoUnit.DAYS.between(due, LocalDate.ofInstant(now, zone));
      String since = days == 0 ? "due today" : days == 1 ? "1 day" : days + " days";
      return new ShelfPicture.Box(unit.tag(), "late", "late", since, true);
    }
    if (unit.state() == UnitState.READY && !unit.charged()) {
      return new ShelfPicture.Box(
          unit.tag(),
          "to-charge",
          unit.charging() ? "charging" : "to charge",
          channels(unit),
          false);
    }
    if (unit.state() == UnitState.TO_WIPE && unit.heldUntil() != null) {
      return new ShelfPicture.Box(
          unit.tag(),
          "held",
          "held",
          "until " + Days.shortly(LocalDate.ofInstant(unit.heldUntil(), zone)),
          false);
    }
    return new ShelfPicture.Box(
        unit.tag(), unit.state().word(), unit.state().words(), detail(unit, now, zone), out);
  }

  private static String detail(UnitView unit, Instant now, ZoneId zone) {
    switch (unit.state()) {
      case READY:
        return unit.testDue() ? "test is due" : channels(unit);
      case RESERVED:
        if (unit.reservedFor() == null) {
          return shorten(unit.stateReason());
        }
        return unit.reservedFor() == UseKind.LOAN ? "for a request" : "for a treatment";
      case IN_TREATMENT:
        return unit.use() == null || unit.use().until() == null
            ? "since " + clockTime(unit.stateSince(), zone)
            : "to " + clockTime(unit.use().until(), zone);
      case ON_LOAN:
        return unit.use() == null || unit.use().until() == null
            ? "no day set"
            : "back " + Days.shortly(LocalDate.ofInstant(unit.use().until(), zone));
      case TO_WIPE:
        return unit.readyAt() == null ? "after use" : minutes(now, unit.readyAt());
      case OUT_OF_SERVICE:
        return shorten(unit.stateReason());
      default:
        return "since " + Days.shortly(LocalDate.ofInstant(unit.stateSince(), zone));
    }
  }

  private static String channels(UnitView unit) {
    return unit.channels() + " ch";
  }

  private static String clockTime(Instant instant, ZoneId zone) {
    return Days.clock(instant.atZone(zone).toLocalTime());
  }

  private static String minutes(Instant now, Instant readyAt) {
    return (Duration.between(now, readyAt).toSeconds() + 59) / 60 + " min left";
  }

  private static String shorten(String reason) {
    if (reason == null) {
      return "";
    }
    return reason.length() <= SHORT ? reason : reason.substring(0, SHORT - 1) + "…";
  }
}
