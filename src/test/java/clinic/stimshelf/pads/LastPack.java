package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.Refusal;
import io.quarkus.arc.Arc;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** However many reach for it, a pack leaves once. Run against each database. */
abstract class LastPack {
  static final int REACHING = 64;

  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject StockKeeping keeping;
  @Inject PadLots lots;
  @Inject Supply supply;

  private Long here;
  private PadTypeView type;
  private Long patient;

  @BeforeEach
  void ownCupboard() {
    here = cupboard.location();
    type = cupboard.type();
    patient = cupboard.patient(here);
  }

  @Test
  void of_64_who_give_the_last_pack_one_does_and_63_hear_that_there_is_none() throws Exception {
    Long lot = cupboard.lot(type, here, "LAST", 200, 1);

    List<Object> answers = allAtOnce(number -> give(number, lot, 1));

    assertThat(done(answers)).as("every answer: %s", answers).hasSize(1);
    assertThat(answers.stream().filter(answer -> !(answer instanceof List)))
        .hasSize(REACHING - 1)
        .allSatisfy(
            answer ->
                assertThat(answer)
                    .isInstanceOf(Refusal.class)
                    .asString()
                    .contains("there are 0 packs here"));
    assertThat(cupboard.packs(lot, here)).isZero();
    assertThat(cupboard.ledger(lot, here)).isZero();
  }

  @Test
  void of_64_who_take_from_two_lots_at_once_as_many_succeed_as_there_are_packs() throws Exception {
    Long one = cupboard.lot(type, here, "ONE", 200, 20);
    Long two = cupboard.lot(type, here, "TWO", 200, 20);

    List<Object> answers =
        allAtOnce(
            number ->
                stock.give(
                    number,
                    patient,
                    here,
                    number % 2 == 0
                        ? List.of(new PackLine(one, 1, null), new PackLine(two, 1, null))
                        : List.of(new PackLine(two, 1, null), new PackLine(one, 1, null)),
                    cupboard.now()));

    assertThat(done(answers)).as("every answer: %s", answers).hasSize(20);
    assertThat(answers.stream().filter(answer -> !(answer instanceof List)))
        .allSatisfy(answer -> assertThat(answer).isInstanceOf(Refusal.class));
    assertThat(cupboard.packs(one, here)).isZero();
    assertThat(cupboard.packs(two, here)).isZero();
  }

  @Test
  void a_first_delivery_entered_by_64_at_once_adds_up() throws Exception {
    List<Object> answers =
        allAtOnce(
            number ->
                supply.receive(
                    new NewDelivery(
                        here,
                        null,
                        null,
                        List.of(
                            new NewDelivery.Line(
                                type.code(), "NEW", cupboard.today(here).plusDays(300), 2, null))),
                    cupboard.now()));

    Long lot = cupboard.lotId(type, "NEW");
    assertThat(cupboard.packs(lot, here)).isEqualTo(2 * done(answers).size());
    assertThat(cupboard.ledger(lot, here)).isEqualTo(2 * done(answers).size());
    assertThat(done(answers)).as("every answer: %s", answers).hasSize(REACHING);
  }

  @Test
  void once_a_quarantine_is_answered_nothing_more_leaves() throws Exception {
    Long lot = cupboard.lot(type, here, "BAD", 200, REACHING);

    List<Object> answers =
        allAtOnce(
            number -> {
              if (number == 20) {
                lots.quarantine(lot, "gel came off", false, cupboard.now());
                return cupboard.packs(lot, here);
              }
              return give(number, lot, 1);
            });

    int leftWhenAnswered =
        answers.stream().filter(Integer.class::isInstance).mapToInt(a -> (Integer) a).sum();
    assertThat(cupboard.packs(lot, here)).isEqualTo(leftWhenAnswered);
    assertThat(cupboard.ledger(lot, here)).isEqualTo(leftWhenAnswered);
  }

  @Test
  void of_64_who_undo_one_line_one_does() throws Exception {
    Long lot = cupboard.lot(type, here, "UNDO", 200, 10);
    Long line = give(1L, lot, 4).get(0);

    List<Object> answers =
        allAtOnce(number -> List.of(keeping.reverse(line, "wrong patient", cupboard.now())));

    assertThat(done(answers)).as("every answer: %s", answers).hasSize(1);
    assertThat(cupboard.packs(lot, here)).isEqualTo(10);
  }

  @Test
  void whoever_lets_the_stock_choose_waits_for_an_undoing_and_takes_what_came_back()
      throws Exception {
    Long early = cupboard.lot(type, here, "EARLY", 100, 1);
    Long later = cupboard.lot(type, here, "LATER", 200, 5);
    Long line = give(1L, early, 1).get(0);
    ExecutorService hand = Executors.newSingleThreadExecutor();
    try {
      Future<List<Long>> taken =
          QuarkusTransaction.requiringNew()
              .call(
                  () -> {
                    keeping.reverse(line, "wrong patient", cupboard.now());
                    Future<List<Long>> pending = hand.submit(this::takeOneFromTheDrawer);
                    // Whoever is held cannot say so; unheld, the taker is done within this.
                    assertThatThrownBy(() -> pending.get(700, TimeUnit.MILLISECONDS))
                        .isInstanceOf(TimeoutException.class);
                    return pending;
                  });
      assertThat(taken.get(2, TimeUnit.MINUTES)).hasSize(1);
    } finally {
      hand.shutdownNow();
    }

    assertThat(cupboard.packs(early, here)).isZero();
    assertThat(cupboard.packs(later, here)).isEqualTo(5);
  }

  private List<Long> takeOneFromTheDrawer() {
    Arc.container().requestContext().activate();
    try {
      return stock.drawerTake(
          new DrawerTake(
              null, type.code(), here, 1, DrawerReason.values()[0], "for a lesson", null, null),
          cupboard.now());
    } finally {
      Arc.container().requestContext().terminate();
    }
  }

  private List<Long> give(Long number, Long lot, int packs) {
    return stock.give(
        number, patient, here, List.of(new PackLine(lot, packs, null)), cupboard.now());
  }

  private static List<Object> done(List<Object> answers) {
    return answers.stream().filter(List.class::isInstance).toList();
  }

  private interface Reach {
    Object take(Long number) throws Exception;
  }

  private static List<Object> allAtOnce(Reach reach) throws Exception {
    ExecutorService hands = Executors.newFixedThreadPool(REACHING);
    CyclicBarrier start = new CyclicBarrier(REACHING);
    try {
      List<Future<Object>> pending = new ArrayList<>();
      for (long number = 1; number <= REACHING; number++) {
        Long mine = number;
        Callable<Object> hand =
            () -> {
              Arc.container().requestContext().activate();
              start.await(30, TimeUnit.SECONDS);
              try {
                return reach.take(mine);
              } catch (Exception answer) {
                return answer;
              } finally {
                Arc.container().requestContext().terminate();
              }
            };
        pending.add(hands.submit(hand));
      }
      List<Object> answers = new ArrayList<>();
      for (Future<Object> one : pending) {
        answers.add(one.get(2, TimeUnit.MINUTES));
      }
      return answers;
    } finally {
      hands.shutdownNow();
    }
  }
}
