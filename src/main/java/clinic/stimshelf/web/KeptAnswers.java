package clinic.stimshelf.web;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import org.hibernate.exception.ConstraintViolationException;

@ApplicationScoped
class KeptAnswers implements PanacheRepository<KeptAnswer> {
  private static final Duration KEPT = Duration.ofHours(48);

  @Inject Clock clock;

  KeptAnswer of(String account, String key) {
    return find("account = ?1 and callKey = ?2", account, key).firstResult();
  }

  /** The same key at the same moment: whoever comes second runs again and finds the answer. */
  void keep(KeptAnswer answer) {
    try {
      persistAndFlush(answer);
    } catch (ConstraintViolationException twin) {
      throw new TryAgain("The same call came twice.", twin);
    }
  }

  @Scheduled(every = "1h")
  @Transactional
  void forget() {
    delete("madeAt < ?1", clock.instant().minus(KEPT));
  }
}
