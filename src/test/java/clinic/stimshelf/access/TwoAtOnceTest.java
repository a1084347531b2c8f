package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class TwoAtOnceTest {

  @Test
  void aCrowdIsServedTwoByTwo() throws Exception {
    TwoAtOnce two = new TwoAtOnce(Duration.ofSeconds(30));
    AtomicInteger inside = new AtomicInteger();
    AtomicInteger most = new AtomicInteger();
    ExecutorService crowd = Executors.newFixedThreadPool(16);
    List<Future<Integer>> served = new ArrayList<>();
    for (int i = 0; i < 32; i++) {
      served.add(
          crowd.submit(
              () ->
                  two.run(
                      () -> {
                        int now = inside.incrementAndGet();
                        most.accumulateAndGet(now, Math::max);
                        pause();
                        return inside.decrementAndGet();
                      })));
    }
    for (Future<Integer> one : served) {
      one.get();
    }
    crowd.shutdown();
    assertThat(most).hasValue(2);
  }

  @Test
  void whoFindsNoPlaceIsToldToWait() throws Exception {
    TwoAtOnce two = new TwoAtOnce(Duration.ofMillis(20));
    CountDownLatch inside = new CountDownLatch(2);
    CountDownLatch leave = new CountDownLatch(1);
    ExecutorService slow = Executors.newFixedThreadPool(2);
    for (int i = 0; i < 2; i++) {
      slow.submit(
          () ->
              two.run(
                  () -> {
                    inside.countDown();
                    await(leave);
                    return null;
                  }));
    }
    inside.await();
    assertThatThrownBy(() -> two.run(() -> "third")).isInstanceOf(NotLetIn.class);
    leave.countDown();
    slow.shutdown();
  }

  @Test
  void aFailureGivesItsPlaceBack() {
    TwoAtOnce two = new TwoAtOnce(Duration.ofMillis(20));
    for (int i = 0; i < 5; i++) {
      assertThatThrownBy(
              () ->
                  two.run(
                      () -> {
                        throw NotLetIn.wrong();
                      }))
          .isInstanceOf(NotLetIn.class)
          .hasMessageContaining("go together");
    }
  }

  private static void pause() {
    try {
      Thread.sleep(5);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
