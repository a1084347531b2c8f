package clinic.stimshelf.loans;

import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.calc.pool.Standing;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Days;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * What would bring a promised day forward, each step tried by itself: the day is reckoned once more
 * as if it were done. A step that changes nothing is left out.
 */
record Sooner(Lending here, Standing standing, Promise promise, LocalDate wished) {
  /** An end that comes within a week is worth a decision now. */
  private static final int SOON = 8;

  private static final int ON_THE_WAY = 1;

  /**
   * @param others units that are not free, in the order of the standing
   * @param spare units of other locations
   */
  List<Outlook.Step> steps(List<UnitView> others, List<UnitsElsewhere.Spare> spare) {
    if (promise.on() != null && !promise.on().isAfter(wished)) {
      return List.of();
    }
    List<Outlook.Step> steps = new ArrayList<>();
    for (int i = 0; i < others.size(); i++) {
      UnitView unit = others.get(i);
      LocalDate due = here.due(unit);
      int turnaround = here.turnaroundDays();
      if (unit.state() == UnitState.ON_LOAN && due != null && due.isBefore(here.today())) {
        add(
            steps,
            "Call about " + unit.tag() + ": it was due " + Days.shortly(due) + ".",
            "/calls/" + unit.use().subjectId(),
            standing.with(i, Returning.surelyOn(turnaround)));
      } else if (unit.state() == UnitState.ON_LOAN
          && due != null
          && due.isBefore(here.today().plusDays(SOON))) {
        add(
            steps,
            "Have it decided that "
                + unit.tag()
                + " comes back on "
                + Days.shortly(due)
                + " as agreed.",
            "/loans/" + unit.use().subjectId(),
            standing.with(i, Returning.surelyOn(here.daysTo(due) + turnaround)));
      } else if (unit.state() == UnitState.OUT_OF_SERVICE) {
        add(
            steps,
            "Get " + unit.tag() + " back into service.",
            "/units/" + unit.tag(),
            standing.with(i, Returning.surelyOn(turnaround)));
      } else if (unit.testDue() && unit.state() != UnitState.ON_LOAN) {
        add(
            steps,
            "Have " + unit.tag() + " tested: its safety test is overdue.",
            "/units/" + unit.tag(),
            standing.with(i, Returning.surelyOn(turnaround)));
      }
    }
    for (UnitsElsewhere.Spare one : spare) {
      add(
          steps,
          "Move " + one.unit().tag() + " over: it is ready at " + one.place() + ".",
          "/units/" + one.unit().tag(),
          standing.with(Returning.surelyOn(ON_THE_WAY)));
    }
    steps.sort(
        Comparator.comparing(
            Outlook.Step::then, Comparator.nullsLast(Comparator.<LocalDate>naturalOrder())));
    return steps;
  }

  private void add(List<Outlook.Step> steps, String words, String href, Standing then) {
    LocalDate day = Promise.of(here.today(), wished, then, here.level(), here.open()).on();
    if (promise.on() == null || (day != null && day.isBefore(promise.on()))) {
      steps.add(new Outlook.Step(words, href, day));
    }
  }
}
