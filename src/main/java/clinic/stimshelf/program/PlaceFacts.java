package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import jakarta.inject.Inject;
import jakarta.transaction.TransactionScoped;
import java.io.Serializable;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What a transaction that enters many rows asks of a location over and over: asked once. */
@TransactionScoped
class PlaceFacts implements Serializable {
  private static final long serialVersionUID = 1L;

  @Inject transient Locations locations;
  @Inject transient PadFacts padFacts;

  private final transient Map<Long, Place> places = new HashMap<>();
  private transient Map<String, PadFact> padTypes;

  private record Place(
      ZoneId zone, LocalDate today, OpenDays openDays, LocationSettings settings) {}

  ZoneId zone(Long locationId) {
    return place(locationId).zone();
  }

  LocalDate today(Long locationId) {
    return place(locationId).today();
  }

  Map<String, PadFact> padTypes() {
    if (padTypes == null) {
      padTypes = padFacts.byCode();
    }
    return padTypes;
  }

  /** Without appointments: those of the past are no promise any more. */
  Outlook.Surroundings around(Long locationId, Map<String, PadFact> padTypesThen) {
    Place place = place(locationId);
    return new Outlook.Surroundings(
        place.today(),
        place.openDays(),
        List.of(),
        place.settings().whole(Setting.APPOINTMENT_WINDOW_DAYS),
        place.settings().whole(Setting.SPARE_SETS),
        List.of(),
        padTypesThen);
  }

  private Place place(Long locationId) {
    return places.computeIfAbsent(
        locationId,
        id ->
            new Place(
                locations.zone(id),
                locations.today(id),
                locations.openDays(id),
                locations.settings(id)));
  }
}
