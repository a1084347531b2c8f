package clinic.stimshelf.exchange;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;

/** What the lines of one file share while they are read: keys, days, opening hours. */
final class Reading {
  private static final LocalDate LONG_AGO = LocalDate.of(1900, 1, 1);

  private final Locations locations;
  private final Map<String, Place> places = new HashMap<>();
  private final Map<Long, OpenHours> hours = new HashMap<>();
  private final Keys keys;
  private final DayText days;
  private final ZoneId zone;
  private final Set<Long> mine;

  record Place(Long id, ZoneId zone) {}

  /**
   * @param mine the locations whose matters may be entered; {@code null} for all
   */
  Reading(Locations locations, Keys keys, Instant now, boolean demo, Set<Long> mine) {
    for (LocationView location : locations.all()) {
      places.put(location.code(), new Place(location.id(), location.zone()));
    }
    this.locations = locations;
    this.keys = keys;
    this.mine = mine;
    this.zone =
        places.values().stream().findFirst().map(Place::zone).orElse(ZoneId.of("America/New_York"));
    this.days = new DayText(now, zone, demo);
  }

  Place place(String code) {
    return places.get(code);
  }

  /** When the place is open; asked of the database only where a row needs it. */
  OpenHours hours(Place place) {
    return hours.computeIfAbsent(
        place.id(),
        id -> new OpenHours(locations.weeklyHours(id), locations.closuresFrom(id, LONG_AGO)));
  }

  Keys keys() {
    return keys;
  }

  DayText days() {
    return days;
  }

  ZoneId zone() {
    return zone;
  }

  boolean mayEnterAt(Long locationId) {
    return mine == null || locationId == null || mine.contains(locationId);
  }
}
