package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.testing.PostOffice;
import jakarta.inject.Inject;
import java.time.Duration;
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
  @Inject Outbox outbox;
  @Inject MutableClock clock;

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

  @Test
  void take_over_what_a_dead_node_held_only_when_its_time_is_over_and_then_for_good() {
    RemindScene.Lent lent = scenes.lent();
    scenes.onlyOf(lent.scene().location());
    scenes.atDayOf(lent, "start-check", "09:00");
    outbox.gather(lent.patientId());
    Parcel dead = outbox.claim().orElseThrow().parcel();

    assertThat(postman.round()).as("another node, at once").isZero();
    assertThat(office.mailTo(lent.email())).isEmpty();

    clock.advance(Duration.ofMinutes(2));
    assertThat(postman.round()).as("another node, later").isEqualTo(1);
    outbox.mark(dead, Answer.refused("550 said by the dead node's server, much later"));

    Message message = scenes.messages(lent.patientId()).get(0);
    assertThat(message.state).isEqualTo(MessageState.SENT);
    assertThat(message.mailId).isEqualTo(dead.mailId());
    assertThat(office.mailTo(lent.email())).hasSize(1);
    assertThat(postman.round()).isZero();
  }
}
