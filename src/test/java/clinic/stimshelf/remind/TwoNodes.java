package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.PostOffice;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** Nodes that empty one outbox at the same moment. Run against each database. */
abstract class TwoNodes {
  private static final int PATIENTS = 6;
  private static final int NODES = 4;

  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject PostOffice office;
  @Inject Postman postman;

  @Test
  void send_each_message_once_and_lose_none() throws Exception {
    LendingScene.Scene scene = lending.open();
    List<RemindScene.Lent> lent = new ArrayList<>();
    for (int i = 0; i < PATIENTS; i++) {
      lent.add(scenes.lent(scene));
    }
    scenes.onlyOf(scene.location());
    scenes.atDayOf(lent.get(0), "start-check", "09:00");

    ExecutorService nodes = Executors.newFixedThreadPool(NODES);
    CyclicBarrier start = new CyclicBarrier(NODES);
    List<Future<Integer>> rounds = new ArrayList<>();
    for (int i = 0; i < NODES; i++) {
      rounds.add(
          nodes.submit(
              () -> {
                start.await(60, TimeUnit.SECONDS);
                return postman.round() + postman.round();
              }));
    }
    int sent = 0;
    for (Future<Integer> round : rounds) {
      sent += round.get(2, TimeUnit.MINUTES);
    }
    nodes.shutdown();
    sent += postman.round();

    assertThat(sent).isEqualTo(PATIENTS);
    assertThat(lent).allSatisfy(one -> assertThat(office.mailTo(one.email())).hasSize(1));
  }
}
