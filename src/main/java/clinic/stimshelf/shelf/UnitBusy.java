package clinic.stimshelf.shelf;

import java.time.Instant;
import java.util.Collection;
import java.util.List;

/**
 * Asks the rooms below what they have booked units for: bookings that have not begun, and so are no
 * use yet. Implemented by appointments and loans.
 */
public interface UnitBusy {

  /** Every booking of the units that touches the time. */
  List<BusySpan> busy(Collection<Long> unitIds, Instant from, Instant to);

  /**
   * A booking.
   *
   * @param words what for, without names or diagnosis, such as “booked for a treatment”
   */
  record BusySpan(
      Long unitId, Instant from, Instant to, UseKind kind, Long subjectId, String words) {}
}
