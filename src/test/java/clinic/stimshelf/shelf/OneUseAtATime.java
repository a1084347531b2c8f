package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.web.InUse;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** A unit is in one place, however many reach for it. Run against each database. */
abstract class OneUseAtATime {
  static final int REACHING = 64;

  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject UnitUses uses;

  @Test
  void of_64_who_reach_for_one_unit_one_gets_it_and_63_learn_who_has_it_and_what_is_free()
      throws Exception {
    Long location = scene.location();
    String kind = scene.kind(2);
    UnitView wanted = scene.readyUnit(location, kind);
    UnitView other = scene.readyUnit(location, kind);
    Instant until = scene.in(Duration.ofDays(28));

    List<Object> answers =
        allAtOnce(
            loan ->
                shelf.begin(
                    wanted.id(), UseKind.LOAN, loan, scene.in(Duration.ZERO), until, scene.now()));

    List<Object> won = answers.stream().filter(UnitUse.class::isInstance).toList();
    List<Object> lost = answers.stream().filter(InUse.class::isInstance).toList();
    assertThat(won).hasSize(1);
    assertThat(lost).as("every answer: %s", answers).hasSize(REACHING - 1);
    assertThat(lost)
        .allSatisfy(
            answer ->
                assertThat(((InUse) answer).getMessage())
                    .contains("Unit " + wanted.tag() + " is on loan since", "until")
                    .contains("Free now: " + other.tag()));
    assertThat(rowsOf(wanted.id())).isEqualTo(1);
    assertThat(shelf.byId(wanted.id()).use().subjectId())
        .isEqualTo(((UnitUse) won.get(0)).subjectId());
  }

  @Test
  void what_is_given_back_can_be_taken_again_and_again_without_two_uses_at_once() throws Exception {
    Long location = scene.location();
    UnitView unit = scene.readyUnit(location, scene.kind(2));

    List<Object> answers =
        allAtOnce(
            treatment -> {
              UnitUse use =
                  shelf.begin(
                      unit.id(),
                      UseKind.TREATMENT,
                      treatment,
                      scene.in(Duration.ZERO),
                      scene.in(Duration.ofMinutes(20)),
                      scene.now());
              shelf.cancelUse(unit.id(), UseKind.TREATMENT, treatment, scene.now());
              return use;
            });

    long began = answers.stream().filter(UnitUse.class::isInstance).count();
    assertThat(began).isPositive();
    assertThat(answers.stream().filter(answer -> !(answer instanceof UnitUse)))
        .allSatisfy(answer -> assertThat(answer).isInstanceOf(InUse.class));
    assertThat(rowsOf(unit.id())).isEqualTo(began);
    assertThat(shelf.byId(unit.id()).state()).isEqualTo(UnitState.READY);
  }

  @Test
  void of_64_who_reserve_one_unit_one_gets_it() throws Exception {
    Long location = scene.location();
    UnitView unit = scene.readyUnit(location, scene.kind(4));

    List<Object> answers =
        allAtOnce(
            request -> {
              shelf.reserve(unit.id(), request, scene.now());
              return request;
            });

    assertThat(answers.stream().filter(Long.class::isInstance)).hasSize(1);
    assertThat(answers.stream().filter(InUse.class::isInstance)).hasSize(REACHING - 1);
  }

  private long rowsOf(Long unitId) {
    return QuarkusTransaction.requiringNew().call(() -> uses.count("unitId", unitId));
  }

  private interface Reach {
    Object take(Long number) throws Exception;
  }

  private List<Object> allAtOnce(Reach reach) throws Exception {
    ExecutorService hands = Executors.newFixedThreadPool(REACHING);
    CyclicBarrier start = new CyclicBarrier(REACHING);
    try {
      List<Future<Object>> pending = new ArrayList<>();
      for (long number = 1; number <= REACHING; number++) {
        Long mine = number;
        Callable<Object> hand =
            () -> {
              start.await(30, TimeUnit.SECONDS);
              try {
                return scene.call(() -> reach.take(mine));
              } catch (Exception answer) {
                return answer;
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
