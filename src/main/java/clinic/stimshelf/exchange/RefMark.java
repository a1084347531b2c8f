package clinic.stimshelf.exchange;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.security.SecureRandom;

/**
 * The mark of this clinic in the refs of rows that were typed in, not imported: mark, kind and
 * number. Read back here such a row is known; in another clinic it is new and cannot be mistaken
 * for a row of its own.
 */
@ApplicationScoped
class RefMark {
  private static final String LETTERS = "abcdefghjkmnpqrstuvwxyz";

  @Inject EntityManager database;
  @Inject SecureRandom random;

  @ActivateRequestContext
  void start(@Observes @Priority(5500) StartupEvent started) {
    QuarkusTransaction.requiringNew().run(this::makeIfMissing);
  }

  private void makeIfMissing() {
    if (database.createNativeQuery("select mark from exchange_mark").getResultList().isEmpty()) {
      StringBuilder mark = new StringBuilder();
      random.ints(8, 0, LETTERS.length()).forEach(i -> mark.append(LETTERS.charAt(i)));
      database
          .createNativeQuery("insert into exchange_mark (mark) values (?1)")
          .setParameter(1, mark.toString())
          .executeUpdate();
    }
  }
}
