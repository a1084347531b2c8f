package clinic.stimshelf.exchange;

import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.DayHours;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** When one location is open, held whole, so that a file of many rows asks only once. */
final class OpenHours {
  private final Map<DayOfWeek, List<DayHours>> weekly;
  private final Map<LocalDate, ClosureView> closures = new HashMap<>();

  OpenHours(Map<DayOfWeek, List<DayHours>> weekly, List<ClosureView> closures) {
    this.weekly = weekly;
    closures.forEach(closure -> this.closures.put(closure.day(), closure));
  }

  boolean isOpen(LocalDate day) {
    return !on(day).isEmpty();
  }

  boolean isOpen(LocalDateTime at) {
    LocalTime time = at.toLocalTime();
    return on(at.toLocalDate()).stream()
        .anyMatch(hours -> !time.isBefore(hours.opens()) && time.isBefore(hours.closes()));
  }

  private List<DayHours> on(LocalDate day) {
    ClosureView closure = closures.get(day);
    if (closure == null) {
      return weekly.getOrDefault(day.getDayOfWeek(), List.of());
    }
    return closure.closedAllDay()
        ? List.of()
        : List.of(new DayHours(closure.opens(), closure.closes()));
  }
}
