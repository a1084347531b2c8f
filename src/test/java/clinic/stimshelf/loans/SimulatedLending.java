package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.calc.pool.Standing;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/**
 * A clinic that lends for two years: the first is the past the promises are made from, in the
 * second each request is told a day. Common practice, no source, for every distribution below:
 *
 * <ul>
 *   <li>it is open on weekdays but for ten closed days a year;
 *   <li>on an open day a Poisson number of people ask for a unit, who want it in 1 (half of them),
 *       2 to 4 or 5 to 14 days; one of ten is urgent, one of ten can wait;
 *   <li>programs last 4, 6 or 8 weeks, the due day is the first open day after;
 *   <li>in the week before it one of eight loans is extended by two weeks;
 *   <li>one of twenty comes back up to three weeks early, 70 % on the due day, 13 % within 3 days
 *       after, 8 % in 4 to 10, 3 % in 11 to 24, 1 % never; all on open days, half of them after the
 *       hour at which people ask;
 *   <li>a unit can go out again a day after its return; whoever is first in line and wants one
 *       takes it.
 * </ul>
 */
final class SimulatedLending {
  static final LocalDate BEGIN = LocalDate.of(2024, 1, 1);
  private static final int YEAR = 365;
  private static final int UNTIL = 2 * YEAR;
  private static final int TURNAROUND = 1;
  private static final int NEVER = 100_000;

  /**
   * What a request was told and what came of it.
   *
   * @param shelf whether a unit stood on the shelf for it when it asked
   * @param days from the asking to the promised day; {@code null} where none was told
   * @param chance told for that day
   * @param kept whether a unit was there for it by the promised day
   * @param onWished chance told for the wished day
   * @param served whether a unit was there for it by the wished day
   */
  record Told(
      boolean shelf, Integer days, double chance, boolean kept, double onWished, boolean served) {}

  private static final class Request {
    int asked;
    int wished;
    int priority;
    int order;
    int servedOn = NEVER;
    boolean shelf;
    Promise promise;
    LocalDate today;
  }

  private static final class Loan {
    int out;
    int firstDue;
    int due;
    int back;
    int extendedOn = NEVER;
    boolean afternoon;

    /** Whether it is back at the hour at which people ask. */
    boolean backBy(int day) {
      return back < day || back == day && !afternoon;
    }
  }

  private final Random random;
  private final int units;
  private final double perDay;
  private final double level;
  private final OpenDays open;
  private final List<Request> all = new ArrayList<>();
  private final List<Request> waiting = new ArrayList<>();
  private final List<Loan> loans = new ArrayList<>();

  private SimulatedLending(long seed, int units, double load, double level) {
    this.random = new Random(seed);
    this.units = units;
    this.level = level;
    // Away for the six weeks of a program, a weekend, a quarter week of extensions, some lateness.
    this.perDay = load * units / (46.0 / 7 * 5);
    List<LocalDate> closed = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      closed.add(BEGIN.plusDays(random.nextInt(3 * YEAR)));
    }
    this.open = OpenDays.of(EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY), Set.copyOf(closed));
  }

  /**
   * @param load units that would be away on average for each one owned, if there were enough
   */
  static List<Told> year(long seed, int units, double load, double level) {
    return new SimulatedLending(seed, units, load, level).told();
  }

  private List<Told> told() {
    for (int day = 0; day < UNTIL + YEAR / 2; day++) {
      if (open.isOpen(date(day))) {
        serve(day);
        if (day < UNTIL) {
          ask(day);
        }
        serve(day);
      }
    }
    List<Told> told = new ArrayList<>();
    for (Request one : all) {
      if (one.promise != null) {
        Integer days =
            one.promise.on() == null
                ? null
                : (int) (one.promise.on().toEpochDay() - one.today.toEpochDay());
        told.add(
            new Told(
                one.shelf,
                days,
                one.promise.chance(),
                days != null && one.servedOn <= one.asked + days,
                one.promise.onWished(),
                one.servedOn <= one.wished));
      }
    }
    return told;
  }

  private void ask(int day) {
    for (int n = poisson(perDay); n > 0; n--) {
      Request request = new Request();
      request.asked = day;
      request.order = all.size();
      double when = random.nextDouble();
      int lead = when < 0.5 ? 1 : when < 0.8 ? 2 + random.nextInt(3) : 5 + random.nextInt(10);
      request.wished = openOnOrAfter(day + lead);
      double urgency = random.nextDouble();
      request.priority = urgency < 0.1 ? 1 : urgency < 0.9 ? 2 : 3;
      if (day >= YEAR) {
        tell(request, day);
      }
      all.add(request);
      waiting.add(request);
    }
  }

  /** As {@code SureByDays} puts it together from what the clinic has on record. */
  private void tell(Request request, int day) {
    LocalDate today = date(day);
    List<Away> seen = new ArrayList<>();
    for (Loan loan : loans) {
      seen.add(known(loan, day));
    }
    TimeAway times =
        TimeAway.of(seen.subList(Math.max(0, seen.size() - TimesAway.NEWEST), seen.size()), today);
    List<Returning> returning = new ArrayList<>();
    for (Loan loan : loans) {
      if (!loan.backBy(day)) {
        returning.add(times.home("K", date(dueAsOf(loan, day)), loan.extendedOn < day, TURNAROUND));
      } else if (loan.back + TURNAROUND > day) {
        returning.add(Returning.surelyOn(TURNAROUND));
      }
    }
    List<Integer> ahead =
        waiting.stream()
            .filter(other -> before(other, request))
            .map(other -> other.wished - day)
            .toList();
    List<Integer> earlier =
        waiting.stream()
            .filter(other -> !before(other, request) && other.wished < request.wished)
            .map(other -> other.wished - day)
            .toList();
    RequestsToCome toCome =
        RequestsToCome.of(
            all.stream()
                .filter(one -> one.asked > day - RequestsToCome.WINDOW)
                .map(
                    one ->
                        new RequestsToCome.Asked(
                            date(one.asked), date(one.wished), one.priority, 2))
                .toList(),
            BEGIN,
            today);
    int free = units - returning.size();
    int wished = request.wished - day;
    Standing standing =
        new Standing(
            free,
            returning,
            wished,
            new Standing.Rivals(ahead, toCome.ahead(request.priority, wished, 2)),
            new Standing.Rivals(earlier, toCome.earlier(request.priority, wished, 2)));
    request.today = today;
    request.shelf = free > ahead.size() + earlier.size();
    request.promise = Promise.of(today, date(request.wished), standing, level, open);
  }

  private void serve(int day) {
    waiting.sort(
        Comparator.comparingInt((Request r) -> r.priority)
            .thenComparingInt(r -> r.wished)
            .thenComparingInt(r -> r.order));
    int free = units - (int) loans.stream().filter(loan -> loan.back + TURNAROUND > day).count();
    for (int i = 0; i < waiting.size() && free > 0; ) {
      Request request = waiting.get(i);
      if (request.wished <= day) {
        request.servedOn = day;
        waiting.remove(i);
        loans.add(lent(day));
        free--;
      } else {
        i++;
      }
    }
  }

  private Loan lent(int day) {
    Loan loan = new Loan();
    loan.out = day;
    loan.firstDue = openOnOrAfter(day + 7 * (4 + 2 * random.nextInt(3)) + 1);
    loan.due = loan.firstDue;
    if (random.nextInt(8) == 0) {
      loan.extendedOn = loan.firstDue - random.nextInt(7) - 1;
      loan.due = openOnOrAfter(loan.firstDue + 14);
    }
    double late = random.nextDouble();
    int days =
        late < 0.05
            ? -1 - random.nextInt(21)
            : late < 0.75
                ? 0
                : late < 0.88
                    ? 1 + random.nextInt(3)
                    : late < 0.96 ? 4 + random.nextInt(7) : 11 + random.nextInt(14);
    // A unit that never comes back is replaced after half a year, so that the fleet keeps its size.
    loan.afternoon = random.nextBoolean();
    loan.back =
        openOnOrAfter(late >= 0.99 ? loan.due + YEAR / 2 : Math.max(loan.out + 1, loan.due + days));
    return loan;
  }

  private static int dueAsOf(Loan loan, int day) {
    return loan.extendedOn < day ? loan.due : loan.firstDue;
  }

  private Away known(Loan loan, int day) {
    List<Away.Turn> turns =
        loan.extendedOn < day
            ? List.of(new Away.Turn(date(loan.extendedOn), date(loan.firstDue), true))
            : List.of();
    return new Away(
        1L,
        1L,
        "K",
        date(loan.out),
        date(dueAsOf(loan, day)),
        loan.backBy(day) ? date(loan.back) : null,
        turns);
  }

  private static boolean before(Request one, Request other) {
    return one.priority != other.priority
        ? one.priority < other.priority
        : one.wished != other.wished ? one.wished < other.wished : one.order < other.order;
  }

  private int openOnOrAfter(int day) {
    return (int) (open.firstOpenOnOrAfter(date(day)).toEpochDay() - BEGIN.toEpochDay());
  }

  private static LocalDate date(int day) {
    return BEGIN.plusDays(day);
  }

  private int poisson(double mean) {
    double left = Math.exp(-mean);
    double product = random.nextDouble();
    int n = 0;
    while (product > left) {
      product *= random.nextDouble();
      n++;
    }
    return n;
  }
}
