package clinic.stimshelf.remind;

import io.quarkus.narayana.jta.QuarkusTransactionException;
import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.PersistenceException;
import java.util.Optional;
import org.jboss.logging.Logger;

/**
 * Goes round every few seconds: puts what is due into messages, and sends as many as the pace
 * allows, one after the other. No page waits for it.
 */
@ApplicationScoped
class Postman {
  private static final Logger LOG = Logger.getLogger(Postman.class);
  private static final int ROUNDS_A_MINUTE = 6;

  @Inject Outbox outbox;
  @Inject Post post;
  @Inject TextGateway gateway;
  @Inject MessageConfig config;

  @Scheduled(
      every = "10s",
      delayed = "20s",
      identity = "postman",
      concurrentExecution = Scheduled.ConcurrentExecution.SKIP)
  @ActivateRequestContext
  void everyTenSeconds() {
    round();
  }

  /**
   * One round.
   *
   * @return how many messages were handed over
   */
  @ActivateRequestContext
  int round() {
    int most = Math.max(1, config.perMinute() / ROUNDS_A_MINUTE);
    for (Long patientId : outbox.waiting(most)) {
      gather(patientId);
    }
    int sent = 0;
    for (int i = 0; i < most; i++) {
      Optional<Outbox.Claim> claim = outbox.claim();
      if (claim.isEmpty()) {
        return sent;
      }
      Parcel parcel = claim.get().parcel();
      if (parcel != null) {
        Answer answer = parcel.route() == Route.EMAIL ? post.hand(parcel) : gateway.hand(parcel);
        outbox.mark(parcel, answer);
        sent += answer.how() == Answer.How.TAKEN ? 1 : 0;
        if (answer.serverTrouble()) {
          LOG.warnf("A message waits for its server: %s", answer.words());
          return sent;
        }
      }
    }
    return sent;
  }

  private void gather(Long patientId) {
    try {
      outbox.gather(patientId);
    } catch (PersistenceException | QuarkusTransactionException another) {
      LOG.debug("Another node made the day's message first");
    }
  }
}
