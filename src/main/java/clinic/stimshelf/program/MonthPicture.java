package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.days.PadPlan;
import clinic.stimshelf.calc.days.SessionDays;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;

/**
 * The sessions of a program as a calendar, Sunday first.
 *
 * @param weeks rows of seven days
 */
record MonthPicture(List<List<Cell>> weeks) {
  private static final DateTimeFormatter FIRST = DateTimeFormatter.ofPattern("MMM d", Locale.US);
  private static final DateTimeFormatter SPOKEN =
      DateTimeFormatter.ofPattern("EEEE, MMMM d", Locale.US);

  /**
   * A day.
   *
   * @param label the day of the month, with the month where it begins
   * @param spoken the day in full
   * @param look how it is drawn: on, closed, due
   * @param words what happens on it
   */
  record Cell(String label, String spoken, String look, List<String> words) {}

  static MonthPicture of(
      SessionDays days,
      List<Outlook.PadLinePlan> pads,
      LocalDate due,
      LocalDate nextAppointment,
      OpenDays openDays,
      Predicate<LocalDate> paused) {
    LocalDate first = days.start().with(TemporalAdjusters.previousOrSame(DayOfWeek.SUNDAY));
    LocalDate end = due != null && due.isAfter(days.lastDay()) ? due : days.lastDay();
    LocalDate last = end.with(TemporalAdjusters.nextOrSame(DayOfWeek.SATURDAY));
    Map<LocalDate, List<String>> changes = padChanges(pads);
    List<List<Cell>> weeks = new ArrayList<>();
    for (LocalDate sunday = first; !sunday.isAfter(last); sunday = sunday.plusWeeks(1)) {
      List<Cell> week = new ArrayList<>();
      for (int i = 0; i < 7; i++) {
        LocalDate day = sunday.plusDays(i);
        List<String> words = new ArrayList<>();
        int sessions = days.on(day);
        if (sessions > 0) {
          words.add(sessions + " ×");
        }
        if (day.equals(days.firstDay())) {
          words.add("starts");
        }
        words.addAll(changes.getOrDefault(day, List.of()));
        if (day.equals(days.lastDay())) {
          words.add("last");
        }
        if (paused.test(day)) {
          words.add("paused");
        }
        if (day.equals(nextAppointment) && !day.equals(due)) {
          words.add("next visit");
        }
        if (day.equals(due)) {
          words.add("due");
        }
        week.add(
            new Cell(
                day.getDayOfMonth() == 1 || day.equals(first)
                    ? FIRST.format(day)
                    : String.valueOf(day.getDayOfMonth()),
                SPOKEN.format(day),
                (sessions > 0 ? "on " : openDays.isOpen(day) ? "" : "closed ")
                    + (day.equals(due) ? "due" : ""),
                words));
      }
      weeks.add(week);
    }
    return new MonthPicture(weeks);
  }

  /** "new pads", or which of several kinds, and from which session where not the day's first. */
  private static Map<LocalDate, List<String>> padChanges(List<Outlook.PadLinePlan> pads) {
    Map<LocalDate, List<String>> changes = new HashMap<>();
    for (Outlook.PadLinePlan line : pads) {
      for (PadPlan.Opening opening :
          line.plan().openings().subList(1, line.plan().openings().size())) {
        String what = pads.size() > 1 ? "new " + line.code() : "new pads";
        changes
            .computeIfAbsent(opening.day(), day -> new ArrayList<>())
            .add(opening.session() == 1 ? what : what + " at session " + opening.session());
      }
    }
    return changes;
  }
}
