package clinic.stimshelf.location;

import java.time.LocalDate;
import java.time.LocalTime;

/**
 * A day that differs from the weekly hours.
 *
 * @param opens start of a half day, {@code null} if closed all day
 * @param closes end of a half day, {@code null} if closed all day
 */
public record ClosureView(LocalDate day, LocalTime opens, LocalTime closes, String reason) {

  public boolean closedAllDay() {
    return opens == null;
  }
}
