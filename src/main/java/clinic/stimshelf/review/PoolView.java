package clinic.stimshelf.review;

import clinic.stimshelf.calc.pool.LendingPool;
import clinic.stimshelf.loans.PastLending;
import clinic.stimshelf.loans.PastPromises;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * How a location's units suffice.
 *
 * @param kinds each kind that is lent out
 * @param channels how late units come in, by how their patients wish to be reached
 * @param failing units with a fault in the last year, the most faults first
 * @param target share of requests that may be turned away
 */
public record PoolView(
    String place,
    LocalDate today,
    double target,
    List<OfKind> kinds,
    List<Channel> channels,
    List<UnitsView.Failing> failing,
    PastPromises.Replayed promises) {

  /**
   * A kind of unit.
   *
   * @param turnaroundDays from check in to ready
   * @param price of one more, {@code null} if none is on record
   * @param pool what becomes of requests by the number of units
   * @param more the same with one unit more
   */
  public record OfKind(
      PastLending.OfKind lending,
      double turnaroundDays,
      BigDecimal price,
      LendingPool pool,
      LendingPool more,
      List<Month> months) {

    private static final int BELOW = 3;
    private static final int ABOVE = 4;
    private static final double WEEKS_A_YEAR = 365.25 / 7;

    /** The part of the curve around what is owned. */
    public List<LendingPool.Point> around() {
      int units = lending.units();
      return pool.curve().stream()
          .filter(one -> one.units() >= units - BELOW && one.units() <= units + ABOVE)
          .toList();
    }

    /** The same as a table. */
    public List<Row> rows() {
      return around().stream()
          .map(
              one ->
                  new Row(
                      one.units(),
                      one.units() == lending.units(),
                      Amounts.of100(one.turnedAway()),
                      one.mustWait().isPresent()
                          ? Amounts.of100(one.mustWait().getAsDouble())
                          : "no end"))
          .toList();
    }

    /** Requests a year that find a unit only thanks to one more. */
    public double servedByOneMore() {
      return lending.requestsPerWeek() * WEEKS_A_YEAR * (pool.turnedAway() - more.turnedAway());
    }

    /** What one more unit does, in a sentence. */
    public String oneMore() {
      String waiting =
          more.meanWaitDays().isEmpty()
              ? "; if all wait in turn, the line still grows without end"
              : pool.meanWaitDays().isEmpty()
                  ? "; if all wait in turn, the line no longer grows without end"
                  : "; if all wait in turn, the mean wait falls from "
                      + Amounts.tenths(pool.meanWaitDays().getAsDouble())
                      + " to "
                      + Amounts.tenths(more.meanWaitDays().getAsDouble())
                      + " days";
      return "From "
          + Amounts.of100(pool.turnedAway())
          + " to "
          + Amounts.of100(more.turnedAway())
          + " of 100 turned away: about "
          + Amounts.tenths(servedByOneMore())
          + " more patients served in a year"
          + waiting
          + ".";
    }

    /** Units that would be away on average if there were always enough. */
    public String load() {
      return Amounts.tenths(pool.offeredLoad());
    }

    public String turnedAway() {
      return Amounts.of100(pool.turnedAway());
    }

    public String requestsPerWeek() {
      return Amounts.tenths(lending.requestsPerWeek());
    }

    public String daysAway() {
      return Amounts.tenths(lending.meanDaysAway());
    }

    public String turnaround() {
      return Amounts.tenths(turnaroundDays);
    }

    public String inUse() {
      return Amounts.of100(utilisation());
    }

    /** Units that lack for the target; 0 where none does. */
    public int lacking() {
      return Math.max(0, pool.unitsForTarget() - lending.units());
    }

    /** Share of the units owned that were away, over the months shown; 0 to about 1. */
    public double utilisation() {
      double away = months.stream().mapToDouble(one -> one.away() * one.days()).sum();
      double owned = months.stream().mapToDouble(one -> one.owned() * (double) one.days()).sum();
      return owned == 0 ? 0 : away / owned;
    }
  }

  /**
   * A number of units.
   *
   * @param now whether so many are owned
   * @param turnedAway of 100
   * @param mustWait of 100, in words
   */
  public record Row(int units, boolean now, String turnedAway, String mustWait) {}

  /**
   * A month, the running one as far as it has come.
   *
   * @param days of it that count
   * @param begun loans that began
   * @param away units away on average
   * @param owned units owned at its end
   */
  public record Month(YearMonth month, int days, int begun, double away, int owned) {
    private static final DateTimeFormatter SHORT = DateTimeFormatter.ofPattern("MMM", Locale.US);
    private static final DateTimeFormatter FULL =
        DateTimeFormatter.ofPattern("MMMM yyyy", Locale.US);

    public String shortly() {
      return SHORT.format(month);
    }

    public String words() {
      return FULL.format(month);
    }

    /** Share of the units that were away. */
    public double utilisation() {
      return owned == 0 ? 0 : away / owned;
    }

    public String meanAway() {
      return Amounts.tenths(away);
    }

    public String inUse() {
      return Amounts.of100(utilisation());
    }
  }

  /**
   * Loans of patients who wish to be reached in one way.
   *
   * @param due in the last year
   * @param late of these, those that came in after their day or are out after it
   * @param middleDaysLate of those late the one in the middle; {@code null} where none was
   */
  public record Channel(String words, int due, int late, Integer middleDaysLate) {
    public String share() {
      return Amounts.of100(due == 0 ? 0 : late / (double) due);
    }
  }

  public PoolView {
    kinds = List.copyOf(kinds);
    channels = List.copyOf(channels);
    failing = List.copyOf(failing);
  }

  /** A promise as a line of a table. */
  public record PromiseRow(
      LocalDate asked, String kind, LocalDate on, String said, LocalDate came, boolean kept) {}

  /** The promises, the newest first. */
  public List<PromiseRow> promiseRows() {
    return promises.promised().stream()
        .sorted(Comparator.comparing(PastPromises.Promised::asked).reversed())
        .map(
            one ->
                new PromiseRow(
                    one.asked(),
                    one.kind(),
                    one.on(),
                    Amounts.of100(one.chance()),
                    one.came(),
                    one.kept()))
        .toList();
  }

  public String goal() {
    return Amounts.of100(target);
  }

  public String keptOf100() {
    return Amounts.of100(promises.kept() / (double) Math.max(1, promises.promised().size()));
  }

  public String saidOf100() {
    return Amounts.of100(promises.said());
  }

  public String wantedOf100() {
    return Amounts.of100(promises.level());
  }

  /** The answer to the page's question. */
  public String headline() {
    if (kinds.stream().noneMatch(one -> one.lending().known())) {
      return "Nothing was lent out yet";
    }
    List<String> lacking =
        kinds.stream()
            .filter(one -> one.lending().known() && one.lacking() > 0)
            .map(one -> one.lending().name() + " (" + one.lacking() + " more)")
            .toList();
    return lacking.isEmpty()
        ? "Enough units of every kind"
        : "Too few units for the goal: " + String.join(", ", lacking);
  }
}
