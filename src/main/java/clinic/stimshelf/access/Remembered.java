package clinic.stimshelf.access;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Passwords that were right a moment ago, as a hash keyed with a secret of this process. Each
 * stands for the stored hash it was checked against, so that a changed password counts at once.
 */
@ApplicationScoped
class Remembered {
  private static final int MOST = 500;

  @Inject SecureRandom random;

  @Inject Clock clock;

  @Inject AccessConfig config;

  private record Right(String phc, Instant until) {}

  private final Map<String, Right> entries =
      new LinkedHashMap<>(64, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Right> eldest) {
          return size() > MOST;
        }
      };
  private byte[] key;

  synchronized void add(String username, String password, String phc) {
    entries.put(
        keyOf(username, password), new Right(phc, clock.instant().plus(config.rememberBasic())));
  }

  synchronized boolean has(String username, String password) {
    String entry = keyOf(username, password);
    Right right = entries.get(entry);
    if (right != null && !clock.instant().isBefore(right.until())) {
      entries.remove(entry);
      return false;
    }
    return right != null;
  }

  synchronized boolean matches(String username, String password, String phc) {
    Right right = entries.get(keyOf(username, password));
    return right != null && right.phc().equals(phc);
  }

  private String keyOf(String username, String password) {
    if (key == null) {
      key = new byte[32];
      random.nextBytes(key);
    }
    return HexFormat.of()
        .formatHex(
            Secrets.hmac(key, Staff.account(username) + "\n" + PasswordHash.normal(password)));
  }
}
