package clinic.stimshelf.calc.days;

import java.time.LocalDateTime;
import java.time.LocalTime;

/**
 * The hours of each day in which nobody is written to, from one time until another; over midnight
 * where {@code until} is not after {@code from}. The same time twice means none.
 *
 * @param from first quiet minute
 * @param until first minute that is quiet no more
 */
public record QuietHours(LocalTime from, LocalTime until) {

  public boolean quiet(LocalTime time) {
    if (from.equals(until)) {
      return false;
    }
    boolean begun = !time.isBefore(from);
    boolean over = !time.isBefore(until);
    return from.isBefore(until) ? begun && !over : begun || !over;
  }

  /** The time itself, or the last minute before the quiet hours it falls into. */
  public LocalDateTime earlier(LocalDateTime wished) {
    if (!quiet(wished.toLocalTime())) {
      return wished;
    }
    LocalDateTime begins = wished.toLocalDate().atTime(from);
    return (begins.isAfter(wished) ? begins.minusDays(1) : begins).minusMinutes(1);
  }

  /** The time itself, or the end of the quiet hours it falls into. */
  public LocalDateTime later(LocalDateTime wished) {
    if (!quiet(wished.toLocalTime())) {
      return wished;
    }
    LocalDateTime ends = wished.toLocalDate().atTime(until);
    return ends.isAfter(wished) ? ends : ends.plusDays(1);
  }
}
