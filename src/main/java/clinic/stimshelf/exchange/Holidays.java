package clinic.stimshelf.exchange;

import de.focus_shift.jollyday.core.Holiday;
import de.focus_shift.jollyday.core.HolidayCalendar;
import de.focus_shift.jollyday.core.HolidayManager;
import de.focus_shift.jollyday.core.ManagerParameters;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Public holidays that a location may want to close on. */
@ApplicationScoped
class Holidays {

  /** A day off and its name. */
  record Proposed(LocalDate day, String name) {}

  /** Federal holidays of the United States on which offices close, in order of days. */
  List<Proposed> between(LocalDate first, LocalDate last) {
    HolidayManager manager =
        HolidayManager.getInstance(ManagerParameters.create(HolidayCalendar.UNITED_STATES));
    List<Proposed> found = new ArrayList<>();
    for (Holiday holiday : manager.getHolidays(first, last)) {
      found.add(new Proposed(holiday.getDate(), name(holiday)));
    }
    // The library counts this one to single states, but 5 U.S.C. 6103 names it too.
    for (int year = first.getYear(); year <= last.getYear(); year++) {
      LocalDate columbus =
          LocalDate.of(year, 10, 1).with(TemporalAdjusters.dayOfWeekInMonth(2, DayOfWeek.MONDAY));
      if (!columbus.isBefore(first) && !columbus.isAfter(last)) {
        found.add(new Proposed(columbus, "Columbus Day"));
      }
    }
    found.sort(Comparator.comparing(Proposed::day));
    return found;
  }

  private static String name(Holiday holiday) {
    String name = holiday.getDescription(Locale.US);
    return name.equals("Labour day") ? "Labor Day" : name;
  }
}
