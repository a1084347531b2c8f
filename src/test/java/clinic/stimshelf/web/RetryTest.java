package clinic.stimshelf.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.OptimisticLockException;
import jakarta.transaction.Transactional;
import java.sql.SQLException;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the database gave up for another transaction's sake is run again, and nothing else. */
@QuarkusTest
class RetryTest {
  @Inject Stubborn stubborn;
  @Inject Outer outer;

  @ParameterizedTest
  @ValueSource(strings = {"40001", "40P01", "50200", "55P03"})
  void runsAgainOnEachStateHoweverDeepItLies(String state) throws Exception {
    AtomicInteger runs = new AtomicInteger();
    String answer =
        Retry.run(
            () -> {
              if (runs.incrementAndGet() < 3) {
                throw new RuntimeException(
                    "outer", new RuntimeException(new SQLException("x", state)));
              }
              return "done";
            });
    assertThat(answer).isEqualTo("done");
    assertThat(runs).hasValue(3);
  }

  @Test
  void runsAgainWhereTheStateHidesAmongSuppressedOrChainedOnes() {
    RuntimeException suppressed = new RuntimeException("commit failed");
    suppressed.addSuppressed(new SQLException("x", "40001"));
    assertThat(Retry.worthAnotherTry(suppressed)).isTrue();
    SQLException batch = new SQLException("batch", "23000");
    batch.setNextException(new SQLException("x", "40P01"));
    assertThat(Retry.worthAnotherTry(new RuntimeException(batch))).isTrue();
    assertThat(Retry.worthAnotherTry(new OptimisticLockException())).isTrue();
    assertThat(Retry.worthAnotherTry(new TryAgain("x", null))).isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"23505", "42000", "08006"})
  void doesNotRunAgainOnOtherFailures(String state) {
    AtomicInteger runs = new AtomicInteger();
    assertThatThrownBy(
            () ->
                Retry.run(
                    () -> {
                      runs.incrementAndGet();
                      throw new SQLException("x", state);
                    }))
        .isInstanceOf(SQLException.class);
    assertThat(runs).hasValue(1);
  }

  @Test
  void doesNotRunARefusalAgain() {
    AtomicInteger runs = new AtomicInteger();
    assertThatThrownBy(
            () ->
                Retry.run(
                    () -> {
                      runs.incrementAndGet();
                      throw new Refusal("field", "No.");
                    }))
        .isInstanceOf(Refusal.class);
    assertThat(runs).hasValue(1);
  }

  @Test
  void givesUpAfterEightRuns() {
    AtomicInteger runs = new AtomicInteger();
    assertThatThrownBy(
            () ->
                Retry.run(
                    () -> {
                      runs.incrementAndGet();
                      throw new SQLException("x", "40001");
                    }))
        .isInstanceOf(SQLException.class);
    assertThat(runs).hasValue(8);
  }

  @Test
  void eachRunOfAServiceHasATransactionOfItsOwn() {
    stubborn.fail(2);
    assertThat(stubborn.work()).isEqualTo("done");
    assertThat(stubborn.runs()).isEqualTo(3);
  }

  @Test
  void withinATransactionThatIsLostNothingIsRunAgain() {
    stubborn.fail(1);
    assertThatThrownBy(outer::work).hasStackTraceContaining("lock");
    assertThat(stubborn.runs()).isEqualTo(1);
  }

  @Retried
  @ApplicationScoped
  static class Stubborn {
    private int runs;
    private int failures;

    int runs() {
      return runs;
    }

    void fail(int times) {
      runs = 0;
      failures = times;
    }

    @Transactional
    String work() {
      if (++runs <= failures) {
        throw new IllegalStateException(new SQLException("lock", "50200"));
      }
      return "done";
    }
  }

  @ApplicationScoped
  static class Outer {
    @Inject Stubborn stubborn;

    @Transactional
    String work() {
      return stubborn.work();
    }
  }
}
