package clinic.stimshelf.calc.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.plan.VisitRun.Slot;
import clinic.stimshelf.calc.plan.VisitRun.Wish;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class VisitRunTest {

  private static final LocalDate MONDAY = LocalDate.parse("2026-05-04");

  @Test
  void takesTheEarliestLastVisitBeforeThePreferredTherapist() {
    List<Slot<String>> slots =
        List.of(
            slot("mon-b", 0, 9, "Bo", 0),
            slot("wed-a", 2, 9, "Ada", 0),
            slot("wed-b", 2, 9, "Bo", 0),
            slot("fri-a", 4, 9, "Ada", 0));
    VisitRun<String> run = VisitRun.of(slots, new Wish(2, 3, 48, MONDAY, "Ada"));
    assertThat(run.visits()).extracting(Slot::id).containsExactly("mon-b", "wed-a");
    assertThat(run.withPreferred()).isEqualTo(1);
    assertThat(run.therapists()).isEqualTo(2);
    VisitRun<String> anyone = VisitRun.of(slots, new Wish(2, 3, 48, MONDAY, null));
    assertThat(anyone.visits()).extracting(Slot::id).containsExactly("mon-b", "wed-b");
    assertThat(anyone.therapists()).isEqualTo(1);
  }

  @Test
  void keepsTheWeeksShareAndTheHoursApart() {
    List<Slot<String>> slots = new ArrayList<>();
    for (int day = 0; day < 14; day++) {
      slots.add(slot("day" + day, day, 9, "Ada", 0));
    }
    VisitRun<String> run = VisitRun.of(slots, new Wish(4, 2, 48, MONDAY, null));
    assertThat(run.visits()).extracting(Slot::id).containsExactly("day0", "day2", "day7", "day9");
    VisitRun<String> other = VisitRun.of(slots, new Wish(4, 2, 48, MONDAY.plusDays(2), null));
    assertThat(other.visits()).extracting(Slot::id).containsExactly("day0", "day2", "day4", "day9");
  }

  @Test
  void givesWhatThereIs() {
    VisitRun<String> run =
        VisitRun.of(List.of(slot("a", 0, 9, "Ada", 3)), new Wish(5, 2, 24, MONDAY, "Ada"));
    assertThat(run.visits()).hasSize(1);
    assertThat(run.asked()).isEqualTo(5);
    assertThat(VisitRun.of(List.<Slot<String>>of(), new Wish(5, 2, 24, MONDAY, null)).visits())
        .isEmpty();
    assertThatThrownBy(() -> new Wish(0, 1, 1, MONDAY, null)).isInstanceOf(BadInput.class);
  }

  /** The yardstick: every subset of up to twelve slots. */
  @Property(tries = 200)
  void isTheBestOfAllRuns(
      @ForAll @IntRange(min = 1) int seed,
      @ForAll @IntRange(min = 1, max = 12) int n,
      @ForAll @IntRange(min = 1, max = 5) int visits,
      @ForAll @IntRange(min = 1, max = 3) int perWeek,
      @ForAll @IntRange(max = 60) int hoursApart) {
    Random random = new Random(seed);
    List<Slot<String>> slots = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      String therapist = List.of("Ada", "Bo", "Cy").get(random.nextInt(3));
      slots.add(
          slot("s" + i, random.nextInt(16), 8 + random.nextInt(4), therapist, random.nextInt(5)));
    }
    Wish wish = new Wish(visits, perWeek, hoursApart, MONDAY.plusDays(random.nextInt(7)), "Ada");
    List<Slot<String>> best = List.of();
    for (int chosen = 0; chosen < 1 << n; chosen++) {
      List<Slot<String>> some = new ArrayList<>();
      for (int i = 0; i < n; i++) {
        if ((chosen >> i & 1) == 1) {
          some.add(slots.get(i));
        }
      }
      some.sort(Comparator.comparing(Slot::start));
      if (some.size() <= visits && isAllowed(some, wish) && compare(some, best) < 0) {
        best = some;
      }
    }
    List<Slot<String>> found = VisitRun.of(slots, wish).visits();
    assertThat(isAllowed(found, wish)).isTrue();
    assertThat(compare(found, best)).isZero();
  }

  @Test
  void aLongRunOutOfManySlotsIsFound() {
    Random random = new Random(11);
    List<Slot<Integer>> slots = new ArrayList<>();
    for (int i = 0; i < 3_000; i++) {
      String therapist = "T" + random.nextInt(8);
      int day = random.nextInt(130);
      LocalDateTime start = MONDAY.plusDays(day).atTime(8 + random.nextInt(10), 0);
      slots.add(new Slot<>(i, start, therapist, random.nextInt(300)));
    }
    Wish wish = new Wish(36, 3, 24, MONDAY, "T0");
    assertThat(VisitRun.of(slots, wish).visits()).hasSize(36);
  }

  private static boolean isAllowed(List<Slot<String>> run, Wish wish) {
    for (int i = 0; i < run.size(); i++) {
      long week = wish.week(run.get(i).start());
      if (run.stream().filter(s -> wish.week(s.start()) == week).count() > wish.perWeek()) {
        return false;
      }
      if (i > 0 && !wish.apart(run.get(i - 1).start(), run.get(i).start())) {
        return false;
      }
    }
    return true;
  }

  private static int compare(List<Slot<String>> a, List<Slot<String>> b) {
    Comparator<List<Slot<String>>> order =
        Comparator.<List<Slot<String>>>comparingInt(run -> -run.size())
            .thenComparing(
                run ->
                    run.isEmpty() ? "" : run.get(run.size() - 1).start().toLocalDate().toString())
            .thenComparing(run -> -run.stream().filter(s -> s.therapist().equals("Ada")).count())
            .thenComparing(run -> run.stream().map(Slot::therapist).distinct().count())
            .thenComparing(run -> run.stream().mapToInt(Slot::distance).sum())
            .thenComparing(run -> run.stream().map(s -> s.start().toString()).toList().toString());
    return order.compare(a, b);
  }

  private static Slot<String> slot(String id, int day, int hour, String therapist, int distance) {
    return new Slot<>(id, MONDAY.plusDays(day).atTime(hour, 0), therapist, distance);
  }
}
