package clinic.stimshelf.access;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.security.SecureRandom;

/** Where every identifier, key and code comes from. */
class RandomSource {

  @Produces
  @DefaultBean
  @Singleton
  SecureRandom random() {
    return new SecureRandom();
  }
}
