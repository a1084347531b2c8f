package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusals;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.annotation.PostConstruct;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;

/** Checks and sets passwords. */
@ApplicationScoped
class Passwords {
  private static final Logger LOG = Logger.getLogger(Passwords.class);

  /**
   * Each hash takes 19 MB and a processor for tens of milliseconds; more at once would choke both.
   */
  private static final int AT_ONCE = 2;

  private static final Duration PATIENCE = Duration.ofSeconds(20);

  @Inject StaffMembers members;

  @Inject Throttle throttle;

  @Inject Remembered remembered;

  @Inject Locations locations;

  @Inject SecureRandom random;

  @Inject Clock clock;

  @ConfigProperty(name = "stimshelf.demo", defaultValue = "false")
  boolean demo;

  private final Semaphore permits = new Semaphore(AT_ONCE, true);
  private String nobodys;

  @PostConstruct
  void makeNobodys() {
    nobodys = PasswordHash.of(Secrets.token(random), random).phc();
  }

  private record Candidate(StaffView staff, String phc) {}

  /**
   * Whose name and password these are. Unknown, ended and password-less accounts cost the same time
   * and read the same as a wrong password.
   *
   * @throws NotLetIn if they don't go together, or too many attempts failed before
   */
  StaffView verify(String username, String password, String address) {
    refuseWhileWaiting(username, address);
    return oneOfTwo(() -> verifyNow(username, password, address));
  }

  /**
   * The same for a script that sends them with every call: what was right is remembered a while.
   */
  StaffView verifyRemembered(String username, String password, String address) {
    return recall(username, password)
        .orElseGet(
            () -> {
              refuseWhileWaiting(username, address);
              return oneOfTwo(
                  () ->
                      recall(username, password)
                          .orElseGet(
                              () -> {
                                StaffView staff = verifyNow(username, password, address);
                                remembered.add(username, password, stored(username));
                                return staff;
                              }));
            });
  }

  /**
   * Sets a password after looking it over.
   *
   * @param field the form's field, for what stands against it
   */
  @Transactional
  void put(StaffMember member, String field, String password) {
    Refusals refusals = new Refusals();
    check(member.username, member.name, field, password, refusals);
    refusals.throwIfAny();
    store(member, password);
  }

  void check(String username, String name, String field, String password, Refusals refusals) {
    List<String> near = new ArrayList<>(List.of(Staff.DEMO_PASSWORD));
    near.add(username);
    near.addAll(List.of(name == null ? new String[0] : name.split("\\s+", -1)));
    locations.all().stream().map(LocationView::name).forEach(near::add);
    PasswordRules.check(field, password == null ? "" : password, near, refusals);
  }

  /** The demo's published password breaks the rules above, and exists in the demo only. */
  @Transactional
  void putDemoPassword(StaffMember member) {
    if (!demo) {
      throw new IllegalStateException("The demo's password exists in the demo only.");
    }
    store(member, Staff.DEMO_PASSWORD);
  }

  private void store(StaffMember member, String password) {
    member.passwordHash = oneOfTwo(() -> PasswordHash.of(password, random).phc());
    member.passwordSetAt = clock.instant();
    if (member.username != null) {
      throttle.forgive(member.username);
    }
  }

  private StaffView verifyNow(String username, String password, String address) {
    refuseWhileWaiting(username, address);
    Candidate candidate = candidate(username);
    boolean usable =
        candidate != null
            && candidate.phc() != null
            && candidate.staff().active()
            && (demo || !Staff.DEMO_PASSWORD.equals(password))
            && !throttle.worn(username);
    PasswordHash hash = PasswordHash.parse(usable ? candidate.phc() : nobodys);
    if (!hash.matches(password) || !usable) {
      int failures = throttle.failed(username, address);
      LOG.warnf(
          "Sign-in failed: account %s, %d in a row",
          candidate == null ? "unknown" : candidate.staff().id(), failures);
      throw NotLetIn.wrong();
    }
    throttle.succeeded(username, address);
    if (hash.outdated()) {
      String renewed = PasswordHash.of(password, random).phc();
      QuarkusTransaction.requiringNew()
          .run(
              () ->
                  members.update(
                      "passwordHash = ?1 where id = ?2 and passwordHash = ?3",
                      renewed,
                      candidate.staff().id(),
                      candidate.phc()));
    }
    return candidate.staff();
  }

  private java.util.Optional<StaffView> recall(String username, String password) {
    if (!remembered.has(username, password)) {
      return java.util.Optional.empty();
    }
    Candidate candidate = candidate(username);
    return candidate != null
            && candidate.staff().active()
            && remembered.matches(username, password, candidate.phc())
        ? java.util.Optional.of(candidate.staff())
        : java.util.Optional.empty();
  }

  private String stored(String username) {
    Candidate candidate = candidate(username);
    return candidate == null ? null : candidate.phc();
  }

  private Candidate candidate(String username) {
    return QuarkusTransaction.requiringNew()
        .call(
            () ->
                members
                    .find(
                        "from StaffMember s left join fetch s.locationIds where s.username = ?1",
                        Staff.account(username))
                    .stream()
                    .findFirst()
                    .map(member -> new Candidate(member.view(), member.passwordHash))
                    .orElse(null));
  }

  private void refuseWhileWaiting(String username, String address) {
    Duration wait = throttle.wait(username, address);
    if (!wait.isZero()) {
      throw NotLetIn.wait(wait);
    }
  }

  private <T> T oneOfTwo(Supplier<T> work) {
    try {
      if (!permits.tryAcquire(PATIENCE.toMillis(), TimeUnit.MILLISECONDS)) {
        throw NotLetIn.wait(Duration.ofSeconds(2));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw NotLetIn.wait(Duration.ofSeconds(2));
    }
    try {
      return work.get();
    } finally {
      permits.release();
    }
  }
}
