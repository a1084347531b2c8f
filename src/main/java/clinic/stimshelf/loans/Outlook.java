package clinic.stimshelf.loans;

import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Days;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * When a request can be served, and what that stands on.
 *
 * @param sureByOn first open day on which a unit is sure enough, or {@code null} with the reason
 * @param reason in words
 * @param chance from 0 to 1 that a unit is there on the day it is wanted; {@code null} if unknown
 * @param ahead requests that come first and could use one of the suitable units
 * @param units every suitable unit with what it adds, the surest first
 * @param sooner what would bring the day forward, each a step somebody can take
 */
record Outlook(
    LocalDate sureByOn,
    String reason,
    Double chance,
    int ahead,
    List<Counted> units,
    List<Step> sooner) {

  Outlook {
    units = List.copyOf(units);
    sooner = List.copyOf(sooner);
  }

  static Outlook of(LocalDate sureByOn, String reason, Double chance, int ahead) {
    return new Outlook(sureByOn, reason, chance, ahead, List.of(), List.of());
  }

  /** The chance on the wished day for people; empty if unknown. */
  public String percentOnWished() {
    return chance == null ? "" : percent(chance);
  }

  /** A chance for people; what is nearly sure is not called sure. */
  static String percent(double chance) {
    return chance > 0.995 && chance < 1
        ? "over 99 %"
        : String.format(Locale.US, "%.0f %%", 100 * chance);
  }

  /**
   * A suitable unit.
   *
   * @param stands where it is, in words
   * @param onWished chance in percent that it is ready on the wished day
   * @param onSure the same on the sure-by day; {@code null} where there is none
   */
  record Counted(String tag, String stands, String onWished, String onSure) {}

  /**
   * A step, and where it is taken.
   *
   * @param then the sure-by day once it is done; {@code null} if it takes more than this step
   */
  record Step(String words, String href, LocalDate then) {}

  /** The units, the surest first; {@code returning} tells of the others in their order. */
  static List<Counted> counted(
      List<UnitView> units,
      List<UnitView> others,
      List<Returning> returning,
      Lending here,
      LocalDate wished,
      LocalDate sure) {
    record Line(double chance, Counted counted) {}
    List<Line> lines = new ArrayList<>();
    for (UnitView unit : units) {
      int index = others.indexOf(unit);
      Returning back = index < 0 ? Returning.surelyOn(0) : returning.get(index);
      double onWished = back.readyBy(here.daysTo(wished));
      double onSure = sure == null ? 0 : back.readyBy(here.daysTo(sure));
      lines.add(
          new Line(
              Math.max(onWished, onSure),
              new Counted(
                  unit.tag(),
                  stands(unit, here),
                  percent(onWished),
                  sure == null ? null : percent(onSure))));
    }
    return lines.stream()
        .sorted(Comparator.comparingDouble(Line::chance).reversed())
        .map(Line::counted)
        .toList();
  }

  private static String stands(UnitView unit, Lending here) {
    LocalDate due = here.due(unit);
    if (unit.testDue()) {
      return unit.state().words() + "; its safety test is overdue";
    }
    if (unit.state() != UnitState.ON_LOAN || due == null) {
      return unit.state().words();
    }
    return due.isBefore(here.today())
        ? "late, was due " + Days.shortly(due)
        : "on loan, due " + Days.shortly(due);
  }
}
