package clinic.stimshelf.review;

import clinic.stimshelf.calc.demand.Replay.Course;
import clinic.stimshelf.calc.demand.Replay.Day;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/**
 * What happened to a pad type, what our rule would have done, and a fixed level.
 *
 * @param price of a pack by the list today
 * @param level of the fixed rule: order at or below
 * @param quantity of the fixed rule: packs in one order
 * @param proposedLevel before the manager chose another
 */
public record ReplayView(
    String code,
    String name,
    Period period,
    BigDecimal price,
    long level,
    long quantity,
    long proposedLevel,
    long proposedQuantity,
    Course happened,
    Course rule,
    Course fixed,
    long realOrders,
    long realPacks) {

  /** A measure beside its meaning. */
  public record Row(String label, String meaning, String happened, String rule, String fixed) {}

  /** The comparison, line by line. */
  public List<Row> rows() {
    return List.of(
        new Row(
            "days short",
            "somebody waited for packs at the end of the day",
            "not recorded",
            String.valueOf(rule.daysShort()),
            String.valueOf(fixed.daysShort())),
        new Row(
            "packs short",
            "asked for and not there on the day",
            "not recorded",
            String.valueOf(rule.packsMissing()),
            String.valueOf(fixed.packsMissing())),
        new Row(
            "days with an empty shelf",
            "no usable pack at the end of the day",
            String.valueOf(happened.daysEmpty()),
            String.valueOf(rule.daysEmpty()),
            String.valueOf(fixed.daysEmpty())),
        new Row(
            "packs expired",
            "past their last day on the shelf",
            String.valueOf(happened.packsExpired()),
            String.valueOf(rule.packsExpired()),
            String.valueOf(fixed.packsExpired())),
        new Row(
            "orders",
            "and packs in them",
            realOrders + " (" + realPacks + ")",
            rule.orders() + " (" + rule.packsOrdered() + ")",
            fixed.orders() + " (" + fixed.packsOrdered() + ")"),
        new Row(
            "packs on an average evening",
            "in the cupboard",
            average(happened),
            average(rule),
            average(fixed)),
        new Row(
            "money tied up",
            "the same at the list price of today",
            money(happened),
            money(rule),
            money(fixed)),
        new Row(
            "cycles without a stock-out",
            "from one delivery to the next",
            cycles(happened),
            cycles(rule),
            cycles(fixed)));
  }

  /** An evening a week, with what was ordered in the week that ends then. */
  public record Week(
      LocalDate day,
      long happened,
      long rule,
      long ruleWaiting,
      long ruleOrdered,
      long fixed,
      long fixedWaiting) {}

  /** For a table beside the chart. */
  public List<Week> weeks() {
    List<Week> weeks = new ArrayList<>();
    for (int n = 6; n < rule.days().size(); n += 7) {
      Day ours = rule.days().get(n);
      weeks.add(
          new Week(
              ours.day(),
              happened.days().get(n).onHand(),
              ours.onHand(),
              ours.waiting(),
              rule.days().subList(n - 6, n + 1).stream().mapToLong(Day::ordered).sum(),
              fixed.days().get(n).onHand(),
              fixed.days().get(n).waiting()));
    }
    return weeks;
  }

  private static String average(Course course) {
    return Amounts.packs(BigDecimal.valueOf(course.averageOnHand()));
  }

  public String money(Course course) {
    return Amounts.money(BigDecimal.valueOf(course.averageOnHand()).multiply(price));
  }

  private static String cycles(Course course) {
    return course.cycles() == 0
        ? "none is over"
        : course.cyclesWithout()
            + " of "
            + course.cycles()
            + " ("
            + Math.round(100.0 * course.cyclesWithout() / course.cycles())
            + " %)";
  }
}
