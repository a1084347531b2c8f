package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.people.Means;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Retry;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** 64 people check out one unit at the same moment. Run against each database. */
abstract class CheckOutRace {
  static final int HANDS = 64;

  @Inject LendingScene lending;
  @Inject CheckOut checkOut;

  @Test
  void of_64_one_gets_the_unit_and_63_learn_who_has_it_and_what_is_free() throws Exception {
    LendingScene.Scene scene = lending.open();
    String wanted = lending.unit(scene);
    String other = lending.unit(scene);
    List<String> programs = new ArrayList<>();
    for (int i = 0; i < HANDS; i++) {
      String program = lending.signed(scene);
      lending.prepared(scene, program, wanted);
      programs.add(program);
    }

    List<Object> answers = allAtOnce(scene, programs, wanted);

    assertThat(answers.stream().filter(Long.class::isInstance)).hasSize(1);
    List<Object> lost = answers.stream().filter(InUse.class::isInstance).toList();
    assertThat(lost).as("every answer: %s", answers).hasSize(HANDS - 1);
    assertThat(lost)
        .allSatisfy(
            answer ->
                assertThat(((InUse) answer).getMessage())
                    .contains("Unit " + wanted + " is on loan since")
                    .contains("Free now: " + other));
    assertThat(lending.packs(scene)).as("two packs left with the one").isEqualTo(98);
  }

  private List<Object> allAtOnce(LendingScene.Scene scene, List<String> programs, String unit)
      throws Exception {
    ExecutorService hands = Executors.newFixedThreadPool(HANDS);
    CyclicBarrier start = new CyclicBarrier(HANDS);
    try {
      List<Future<Object>> pending = new ArrayList<>();
      for (String program : programs) {
        Callable<Object> hand =
            () -> {
              start.await(60, TimeUnit.SECONDS);
              try {
                return lending.call(
                    () -> Retry.run(() -> checkOut.checkOut(order(scene, program, unit))));
              } catch (Exception answer) {
                return answer;
              }
            };
        pending.add(hands.submit(hand));
      }
      List<Object> answers = new ArrayList<>();
      for (Future<Object> one : pending) {
        answers.add(one.get(3, TimeUnit.MINUTES));
      }
      return answers;
    } finally {
      hands.shutdownNow();
    }
  }

  private static CheckOutOrder order(LendingScene.Scene scene, String program, String unit) {
    return new CheckOutOrder(
        Long.valueOf(program),
        unit,
        List.of(new PackLine(scene.lot(), 2, null)),
        Set.of(Identifier.NAME, Identifier.BIRTH_DATE),
        null,
        null,
        new CheckOutOrder.Agreement("Ada Lindqvist", "self", Means.PAPER, "en", "2026-1"),
        null,
        null,
        null,
        null,
        null);
  }
}
