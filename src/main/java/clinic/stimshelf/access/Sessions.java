package clinic.stimshelf.access;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Browsers that somebody is signed in with. They end here, not in the browser. */
@ApplicationScoped
class Sessions {
  @Inject BrowserSessions rows;

  @Inject Clock clock;

  @Inject SecureRandom random;

  @Inject AccessConfig config;

  /** Begins a session and gives the identifier for the cookie, which is stored nowhere else. */
  @Transactional
  String begin(StaffMember staff, Long locationId) {
    String token = Secrets.token(random);
    BrowserSession session = new BrowserSession();
    session.tokenHash = Secrets.sha256(token);
    session.staff = staff;
    session.locationId = locationId;
    session.startedAt = clock.instant();
    session.seenAt = session.startedAt;
    rows.persist(session);
    return token;
  }

  /**
   * Who is signed in with the cookie, if the session still runs. Counts as a sign of life.
   *
   * @param background a call that a page makes by itself, which is no sign of life
   */
  @Transactional
  Optional<Presence> find(String token, boolean background) {
    Instant now = clock.instant();
    Optional<BrowserSession> open =
        rows
            .find(
                "from BrowserSession b join fetch b.staff s left join fetch s.locationIds"
                    + " where b.tokenHash = ?1",
                Secrets.sha256(token))
            .stream()
            .findFirst()
            .filter(session -> session.open(now, config.idle(), config.absolute()));
    open.ifPresent(session -> seen(session, now, background));
    return open.map(session -> presence(session, token));
  }

  /** Ends the session of a cookie; whoever replays the cookie finds nobody. */
  @Transactional
  void end(String token) {
    rows.update(
        "endedAt = ?1 where tokenHash = ?2 and endedAt is null",
        clock.instant(),
        Secrets.sha256(token));
  }

  @Transactional
  void endAll(Long staffId) {
    rows.update("endedAt = ?1 where staff.id = ?2 and endedAt is null", clock.instant(), staffId);
  }

  /** Ends all of a person's sessions but the one they act in. */
  @Transactional
  void endOthers(Long staffId, Long sessionId) {
    rows.update(
        "endedAt = ?1 where staff.id = ?2 and id <> ?3 and endedAt is null",
        clock.instant(),
        staffId,
        sessionId == null ? -1L : sessionId);
  }

  @Transactional
  void show(Long sessionId, Long locationId) {
    rows.update("locationId = ?1 where id = ?2", locationId, sessionId);
  }

  @Transactional
  void blankNames(Long sessionId, boolean privacy) {
    rows.update("privacy = ?1 where id = ?2", privacy, sessionId);
  }

  @Transactional
  long forget(Duration olderThan) {
    return rows.delete("startedAt < ?1", clock.instant().minus(olderThan));
  }

  /** Written at most every quarter minute: a busy page asks many times a second. */
  private void seen(BrowserSession session, Instant now, boolean background) {
    Duration grain = config.idle().dividedBy(60);
    if (!background && Duration.between(session.seenAt, now).compareTo(grain) >= 0) {
      session.seenAt = now;
    }
  }

  private Presence presence(BrowserSession session, String token) {
    StaffView staff = session.staff.view();
    List<Long> mine = staff.locationIds();
    Long shown =
        session.locationId != null && mine.contains(session.locationId)
            ? session.locationId
            : Presence.first(mine);
    Instant endsAt = session.startedAt.plus(config.absolute());
    Instant idleAt = session.seenAt.plus(config.idle());
    return new Presence(
        staff,
        staff.role(),
        mine,
        shown,
        session.id,
        Secrets.formToken(token),
        session.privacy,
        "",
        idleAt.isBefore(endsAt) ? idleAt : endsAt,
        endsAt);
  }
}
