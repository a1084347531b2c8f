package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import clinic.stimshelf.calc.demand.Replay;
import clinic.stimshelf.calc.demand.Replay.Batch;
import clinic.stimshelf.calc.demand.Replay.Morning;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.pads.OrderRule;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.review.PastKnowledge.Delivery;
import clinic.stimshelf.review.PastKnowledge.Kind;
import clinic.stimshelf.review.PastKnowledge.Promise;
import clinic.stimshelf.review.PastKnowledge.Taking;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** The replay knows on a morning what the clinic knew then, and nothing more. */
class PastKnowledgeTest {
  private static final LocalDate START = LocalDate.parse("2025-06-02");
  private static final PastKnowledge.Usual USUAL = new PastKnowledge.Usual(7, 540, 7, 0.8);
  private static final OrderRule.Terms TERMS = new OrderRule.Terms(7, 0.95, 0.9);
  private static final PadTypeView TYPE =
      new PadTypeView(
          1L,
          "P",
          "P",
          PadShape.RECTANGLE,
          50,
          90,
          "snap",
          4,
          1,
          20,
          30,
          BigDecimal.TEN,
          null,
          7,
          5,
          5,
          null,
          null,
          540,
          true,
          0);

  @Test
  void aProgramIsKnownTheDayAfterItWasSignedAndNoLongerThanItRuns() {
    PastKnowledge knowledge =
        new PastKnowledge(
            List.of(),
            List.of(),
            List.of(
                new Promise("a", START, START.plusDays(20), START.plusDays(1), 3, false),
                new Promise("a", START, START.plusDays(20), START.plusDays(14), 2, true)),
            USUAL);
    assertThat(known(knowledge, 0).promised()).isEmpty();
    assertThat(known(knowledge, 1).promised())
        .extracting(DatedPacks::on, DatedPacks::packs, DatedPacks::chance)
        .containsExactly(tuple(START.plusDays(1), 3, 1.0), tuple(START.plusDays(14), 2, 0.8));
    assertThat(known(knowledge, 21).promised()).isEmpty();
  }

  @Test
  void whatAProgramDrewIsNotExpectedAgain() {
    PastKnowledge knowledge =
        new PastKnowledge(
            List.of(new Taking(START.plusDays(1), Kind.GIVEN, 4, "a")),
            List.of(),
            List.of(
                new Promise("a", START, START.plusDays(30), START.plusDays(1), 3, false),
                new Promise("a", START, START.plusDays(30), START.plusDays(14), 2, true)),
            USUAL);
    assertThat(known(knowledge, 2).promised()).extracting(DatedPacks::packs).containsExactly(1);
  }

  @Test
  void leadTimesAreLearntOnceTheDeliveryIsThere() {
    PastKnowledge knowledge =
        new PastKnowledge(
            List.of(), List.of(new Delivery(START, START.plusDays(9), 400)), List.of(), USUAL);
    assertThat(known(knowledge, 9).pastLeadDays()).isEmpty();
    assertThat(known(knowledge, 9).keptDays()).isEqualTo(540);
    assertThat(known(knowledge, 10).pastLeadDays()).containsExactly(9);
    assertThat(known(knowledge, 10).keptDays()).isEqualTo(400);
  }

  /** The orders of our rule up to a day are the same, whatever is asked for and signed later. */
  @Property(tries = 25)
  void changingTheFutureChangesNoOrderOfThePast(
      @ForAll long seed, @ForAll long other, @ForAll @IntRange(min = 10, max = 190) int day) {
    Story one = Story.of(new Random(seed), null, 0);
    Story two = Story.of(new Random(other), one, day);
    Map<LocalDate, Long> before = orders(one);
    Map<LocalDate, Long> after = orders(two);
    for (int d = 0; d <= day; d++) {
      assertThat(after.get(START.plusDays(d))).isEqualTo(before.get(START.plusDays(d)));
    }
  }

  @Property(tries = 5)
  void theRuleOrdersAtAllWherePacksAreAskedFor(@ForAll long seed) {
    assertThat(orders(Story.of(new Random(seed), null, 0)).values())
        .anySatisfy(packs -> assertThat(packs).isPositive());
  }

  private static OrderRule.Known known(PastKnowledge knowledge, int day) {
    return knowledge.on(
        new Morning(START.plusDays(day), List.of(new Batch(START.plusDays(300), 9)), List.of(), 0));
  }

  private static Map<LocalDate, Long> orders(Story story) {
    PastKnowledge knowledge =
        new PastKnowledge(story.takings, story.deliveries, story.promises, USUAL);
    Map<LocalDate, Integer> asked = new HashMap<>();
    story.takings.forEach(one -> asked.merge(one.day(), one.packs(), Integer::sum));
    Replay.Course course =
        Replay.walk(
            new Replay.Past(
                START,
                START.plusDays(199),
                List.of(new Batch(START.plusDays(500), 20)),
                List.of(),
                asked,
                Map.of(),
                List.of(),
                new Replay.Supply(START, 8, 500),
                7),
            morning -> OrderRule.decide(TYPE, TERMS, knowledge.on(morning)).packs());
    Map<LocalDate, Long> orders = new HashMap<>();
    course.days().forEach(one -> orders.put(one.day(), one.ordered()));
    return orders;
  }

  /** A made-up past of 200 days, the same as another's up to a day. */
  private record Story(List<Taking> takings, List<Delivery> deliveries, List<Promise> promises) {
    static Story of(Random chance, Story same, int until) {
      LocalDate end = START.plusDays(until);
      List<Taking> takings = new ArrayList<>();
      List<Delivery> deliveries = new ArrayList<>();
      List<Promise> promises = new ArrayList<>();
      if (same != null) {
        same.takings.stream().filter(one -> one.day().isBefore(end)).forEach(takings::add);
        same.deliveries.stream().filter(one -> one.cameOn().isBefore(end)).forEach(deliveries::add);
        same.promises.stream().filter(one -> one.signedOn().isBefore(end)).forEach(promises::add);
      }
      for (int d = until; d < 200; d++) {
        LocalDate day = START.plusDays(d);
        if (chance.nextInt(3) == 0) {
          Kind kind = Kind.values()[chance.nextInt(3)];
          takings.add(
              new Taking(day, kind, 1 + chance.nextInt(3), kind == Kind.GIVEN ? "p" + d : null));
        }
        if (chance.nextInt(20) == 0) {
          deliveries.add(new Delivery(day.minusDays(1 + chance.nextInt(12)), day, 500));
        }
        if (chance.nextInt(10) == 0) {
          promises.add(
              new Promise(
                  "p" + d, day, day.plusDays(42), day.plusDays(chance.nextInt(20)), 2, false));
        }
      }
      promises.sort(Comparator.comparing(Promise::dueOn));
      return new Story(takings, deliveries, promises);
    }
  }
}
