package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What other rooms know of packs that will be drawn. Implemented by programs, appointments and
 * loans.
 */
public interface DatedDemand {

  /**
   * Packs that still have to leave the cupboard of a location from one day to another, both
   * included; never what the patient has already.
   */
  List<DatedPacks> dated(Long locationId, LocalDate from, LocalDate to);

  /** Treatments in the clinic: those booked up to a day, and what became of those since another. */
  default Treatments treatments(Long locationId, LocalDate since, LocalDate to) {
    return Treatments.NONE;
  }

  /** Packs of a type that are due to patients and were not yet given. */
  default int owed(Long padTypeId, Long locationId) {
    return 0;
  }

  /** The same for several types at once. */
  default Map<Long, Integer> owed(Collection<Long> padTypeIds, Long locationId) {
    Map<Long, Integer> owed = new HashMap<>();
    padTypeIds.forEach(type -> owed.put(type, owed(type, locationId)));
    return owed;
  }
}
