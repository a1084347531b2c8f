package clinic.stimshelf.calc.demand;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.demand.Replay.Arrival;
import clinic.stimshelf.calc.demand.Replay.Batch;
import clinic.stimshelf.calc.demand.Replay.Course;
import clinic.stimshelf.calc.demand.Replay.Day;
import clinic.stimshelf.calc.demand.Replay.Morning;
import clinic.stimshelf.calc.demand.Replay.Past;
import clinic.stimshelf.calc.demand.Replay.Rule;
import clinic.stimshelf.calc.demand.Replay.Supply;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

/** A cupboard walked through again, worked by hand and against the plainest reckoning. */
class ReplayTest {
  private static final LocalDate MONDAY = LocalDate.parse("2026-01-05");

  /**
   * Worked by hand. 5 packs, 2 a day, order 6 at or below 4, three days until they come, a look
   * each day. Day 0: 5 on the shelf, above 4, gives 2. Day 1: 3, orders 6, gives 2. Day 2: 1, 6
   * coming, gives 1, 1 missing. Day 3: 0, gives none, 2 missing, 3 wait. Day 4: 6 come, 3 of them
   * to who waits, and 2 are given: 1 left. The position on day 3 was 0 + 6 − 1 = 5, above 4; on day
   * 4 before anything is given it is 6 − 3 = 3: orders 6. Day 5: gives 1, 1 missing.
   */
  @Test
  void aWeekGoesAsByHand() {
    Past past = past(6, 5, steady(6, 2), List.of(), 3, 400);
    Course course = Replay.walk(past, fixed(4, 6));
    assertThat(course.days())
        .containsExactly(
            new Day(MONDAY, 3, 0, 0, 0, 0),
            new Day(MONDAY.plusDays(1), 1, 0, 0, 6, 0),
            new Day(MONDAY.plusDays(2), 0, 1, 1, 0, 0),
            new Day(MONDAY.plusDays(3), 0, 3, 2, 0, 0),
            new Day(MONDAY.plusDays(4), 1, 0, 0, 6, 0),
            new Day(MONDAY.plusDays(5), 0, 1, 1, 0, 0));
    assertThat(course.daysShort()).isEqualTo(3);
    assertThat(course.daysEmpty()).isEqualTo(3);
    assertThat(course.packsMissing()).isEqualTo(4);
    assertThat(course.orders()).isEqualTo(2);
    assertThat(course.averageOnHand()).isEqualTo(5 / 6.0);
    // One delivery came: no cycle from one to the next is over yet.
    assertThat(course.shareWithout()).isEmpty();
  }

  @Test
  void packsLeaveFirstExpiryFirstAndAreThrownAwayAfterTheirLastDay() {
    Past past =
        new Past(
            MONDAY,
            MONDAY.plusDays(3),
            List.of(new Batch(MONDAY.plusDays(300), 4), new Batch(MONDAY.plusDays(1), 3)),
            List.of(),
            Map.of(MONDAY, 1, MONDAY.plusDays(1), 1, MONDAY.plusDays(3), 3),
            Map.of(),
            List.of(),
            new Supply(MONDAY, 5, 400),
            7);
    Course course = Replay.walk(past, Rule.NONE);
    assertThat(course.days()).extracting(Day::onHand).containsExactly(6L, 5L, 4L, 1L);
    assertThat(course.days()).extracting(Day::expired).containsExactly(0L, 0L, 1L, 0L);
  }

  @Test
  void cyclesRunFromDeliveryToDelivery() {
    List<Arrival> arrivals = new ArrayList<>();
    for (int day : new int[] {2, 6, 10}) {
      arrivals.add(new Arrival(MONDAY.plusDays(day), new Batch(MONDAY.plusDays(400), 5), MONDAY));
    }
    Map<LocalDate, Integer> asked = new HashMap<>();
    asked.put(MONDAY.plusDays(3), 7);
    asked.put(MONDAY.plusDays(8), 1);
    Course course =
        Replay.walk(
            new Past(
                MONDAY,
                MONDAY.plusDays(12),
                List.of(),
                arrivals,
                asked,
                Map.of(),
                List.of(),
                new Supply(MONDAY, 5, 400),
                7),
            Rule.NONE);
    assertThat(course.cycles()).isEqualTo(2);
    assertThat(course.cyclesWithout()).isEqualTo(1);
    assertThat(course.shareWithout()).hasValue(0.5);
  }

  @Test
  void anOrderTakesAsLongAsTheOneReallyPlacedLastBefore() {
    List<Supply> supplies =
        List.of(new Supply(MONDAY.plusDays(1), 2, 90), new Supply(MONDAY.plusDays(6), 9, 90));
    Past past =
        new Past(
            MONDAY,
            MONDAY.plusDays(20),
            List.of(),
            List.of(),
            Map.of(),
            Map.of(),
            supplies,
            new Supply(MONDAY, 4, 90),
            1);
    Map<LocalDate, Long> first = new HashMap<>();
    for (int orderOn : new int[] {0, 3, 7}) {
      Course course =
          Replay.walk(past, morning -> morning.day().equals(MONDAY.plusDays(orderOn)) ? 1 : 0);
      LocalDate came =
          course.days().stream().filter(day -> day.onHand() == 1).findFirst().orElseThrow().day();
      first.put(MONDAY.plusDays(orderOn), came.toEpochDay() - MONDAY.toEpochDay());
    }
    assertThat(first)
        .isEqualTo(Map.of(MONDAY, 4L, MONDAY.plusDays(3), 5L, MONDAY.plusDays(7), 16L));
  }

  /** What the rule did up to a day depends on nothing that comes after it. */
  @Property(tries = 300)
  void theFutureDoesNotChangeThePast(
      @ForAll @Size(40) List<@IntRange(max = 6) Integer> asked,
      @ForAll @Size(40) List<@IntRange(max = 6) Integer> otherwise,
      @ForAll @IntRange(max = 39) int day,
      @ForAll @IntRange(max = 12) int lead) {
    List<Integer> changed = new ArrayList<>(asked.subList(0, day));
    changed.addAll(otherwise.subList(day, 40));
    Map<LocalDate, Long> before = orders(asked, lead);
    Map<LocalDate, Long> after = orders(changed, lead);
    for (int d = 0; d <= day; d++) {
      assertThat(after.get(MONDAY.plusDays(d))).isEqualTo(before.get(MONDAY.plusDays(d)));
    }
  }

  /** Packs neither appear nor vanish. */
  @Property(tries = 300)
  void everyPackIsSomewhere(
      @ForAll @Size(60) List<@IntRange(max = 9) Integer> asked,
      @ForAll @IntRange(max = 20) int opening,
      @ForAll @IntRange(max = 10) int lead,
      @ForAll @IntRange(min = 1, max = 40) int kept,
      @ForAll @IntRange(max = 30) int level) {
    Course course =
        Replay.walk(
            past(60, opening, asked, List.of(), lead, kept), fixed(level, Math.max(1, level / 2)));
    long wanted = asked.stream().mapToLong(Integer::longValue).sum();
    Day last = course.days().get(59);
    long given = wanted - last.waiting();
    long ordered = course.packsOrdered();
    long notYet =
        course.days().stream()
            .filter(day -> day.day().plusDays(lead).isAfter(last.day()))
            .mapToLong(Day::ordered)
            .sum();
    assertThat(opening + ordered - notYet).isEqualTo(given + last.onHand() + course.packsExpired());
  }

  /** Against the plainest reckoning there is: numbers in arrays, nothing expires. */
  @Property(tries = 300)
  void itAgreesWithPlainArithmetic(
      @ForAll @Size(50) List<@IntRange(max = 5) Integer> asked,
      @ForAll @IntRange(min = 1, max = 9) int lead,
      @ForAll @IntRange(min = 1, max = 9) int review,
      @ForAll @IntRange(max = 25) int level) {
    int quantity = 12;
    int[] comes = new int[80];
    int net = 15;
    int onOrder = 0;
    List<Long> expected = new ArrayList<>();
    for (int d = 0; d < 50; d++) {
      net += comes[d];
      onOrder -= comes[d];
      if (d % review == 0 && net + onOrder <= level) {
        comes[d + lead] += quantity;
        onOrder += quantity;
      }
      net -= asked.get(d);
      expected.add((long) net);
    }
    Past past = past(50, 15, asked, List.of(), lead, 4_000);
    Course course =
        Replay.walk(
            new Past(
                past.from(),
                past.to(),
                past.opening(),
                past.arrivals(),
                past.asked(),
                past.gone(),
                past.supplies(),
                past.usual(),
                review),
            fixed(level, quantity));
    assertThat(course.days()).extracting(day -> day.onHand() - day.waiting()).isEqualTo(expected);
  }

  private static Map<LocalDate, Long> orders(List<Integer> asked, int lead) {
    Map<LocalDate, Long> orders = new LinkedHashMap<>();
    Replay.walk(past(40, 10, asked, List.of(), lead, 60), fixed(9, 8))
        .days()
        .forEach(day -> orders.put(day.day(), day.ordered()));
    return orders;
  }

  private static Rule fixed(long level, long quantity) {
    return (Morning morning) -> morning.position() <= level ? quantity : 0;
  }

  private static List<Integer> steady(int days, int packs) {
    List<Integer> asked = new ArrayList<>();
    for (int d = 0; d < days; d++) {
      asked.add(packs);
    }
    return asked;
  }

  private static Past past(
      int days, int opening, List<Integer> asked, List<Arrival> arrivals, int lead, int kept) {
    Map<LocalDate, Integer> byDay = new HashMap<>();
    for (int d = 0; d < days; d++) {
      byDay.put(MONDAY.plusDays(d), asked.get(d));
    }
    return new Past(
        MONDAY,
        MONDAY.plusDays(days - 1L),
        opening == 0 ? List.of() : List.of(new Batch(MONDAY.plusDays(4_000), opening)),
        arrivals,
        byDay,
        Map.of(),
        List.of(),
        new Supply(MONDAY, lead, kept),
        1);
  }
}
