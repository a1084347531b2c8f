package clinic.stimshelf.shelf;

import java.time.LocalDate;
import java.util.Map;

/**
 * Asks the room of appointments from when on a location's treatments could not do without a unit,
 * so that lending never takes what booked treatments need.
 */
public interface NeededHere {

  /** How many days ahead are looked at. */
  int DAYS_AHEAD = 60;

  /**
   * Until when each unit of the location that serves treatments can be lent.
   *
   * @return by unit; one that no treatment needs within the days ahead has no entry
   */
  default Map<Long, LentUntil> lentUntil(Long locationId) {
    return lentUntil(locationId, null);
  }

  /**
   * The same for a unit that goes to a patient, who brings it to their own treatments.
   *
   * @param patientId whose treatments do not count; {@code null} for nobody's
   */
  Map<Long, LentUntil> lentUntil(Long locationId, Long patientId);

  /**
   * How long a unit can be away.
   *
   * @param backOn last day on which it may come back; before today where it cannot be lent at all
   * @param neededOn the first day on which treatments need it
   * @param words why, as a sentence
   */
  record LentUntil(LocalDate backOn, LocalDate neededOn, String words) {

    /** Whether it may be away until that day. */
    public boolean allows(LocalDate dueOn) {
      return dueOn == null || !dueOn.isAfter(backOn);
    }
  }
}
