package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

/**
 * Secret addresses of therapists' calendars. Whoever has one reads the feed, so it is shown once,
 * kept as a hash only, and ends at once when it is revoked or the account ends.
 */
@ApplicationScoped
class CalendarLinks {
  /** 256 random bits; 128 would do. */
  private static final int BYTES = 32;

  private static final int MOST = 5;
  private static final int LONGEST_WORDS = 80;

  @Inject CalendarLinkRows rows;
  @Inject Staff staff;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject SecureRandom random;

  /** The links of the acting person, the newest first. */
  @Transactional
  List<CalendarLinkView> mine() {
    return rows.list("staffId = ?1 order by id desc", signedIn.staff().id()).stream()
        .map(
            link ->
                new CalendarLinkView(
                    link.id, link.words, link.madeAt, link.lastReadAt, link.revokedAt))
        .toList();
  }

  /**
   * Makes a link for the person who acts.
   *
   * @param words what will read it
   * @return the secret, this once
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  String make(String words) {
    Refusals refusals = new Refusals();
    if (words == null || words.isBlank() || words.strip().length() > LONGEST_WORDS) {
      refusals.add("words", "Say in 1 to 80 characters what will read it, such as “my phone”.");
    }
    Long me = signedIn.staff().id();
    if (rows.count("staffId = ?1 and revokedAt is null", me) >= MOST) {
      refusals.add(
          "words", "You have " + MOST + " links already.", "Revoke one that is no longer used.");
    }
    refusals.throwIfAny();
    byte[] bytes = new byte[BYTES];
    random.nextBytes(bytes);
    String secret = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    CalendarLink link = new CalendarLink();
    link.staffId = me;
    link.words = words.strip();
    link.secretHash = hash(secret);
    link.madeAt = clock.instant();
    rows.persist(link);
    trail.record(
        Subject.of("staff", me),
        "calendar link made",
        times.now(),
        null,
        Map.of("words", link.words));
    return secret;
  }

  /**
   * Ends a link of the acting person.
   *
   * @throws NotFound if it is not theirs
   */
  @Transactional
  void revoke(Long id) {
    CalendarLink link = rows.findById(id);
    if (link == null || !link.staffId.equals(signedIn.staff().id())) {
      throw new NotFound("You have no such calendar link.");
    }
    if (link.revokedAt == null) {
      link.revokedAt = clock.instant();
      trail.record(
          Subject.of("staff", link.staffId),
          "calendar link revoked",
          times.now(),
          Map.of("words", link.words),
          null);
    }
  }

  /** A link that still works, and whose it is. */
  record Reader(Long linkId, StaffView whose) {}

  /**
   * Who stands behind an address.
   *
   * @throws NotFound if there is none such, or it has ended
   */
  @Transactional
  Reader read(String secret) {
    CalendarLink link =
        rows.find("secretHash = ?1 and revokedAt is null", hash(secret)).firstResult();
    StaffView whose = link == null ? null : staff.byId(link.staffId);
    if (whose == null || !whose.active() || !whose.role().equals(Roles.THERAPIST)) {
      throw new NotFound("This calendar link has ended, or never was. Make a new one.");
    }
    // By the hour is enough to see that it is in use.
    Instant now = clock.instant();
    if (link.lastReadAt == null
        || Duration.between(link.lastReadAt, now).compareTo(Duration.ofHours(1)) >= 0) {
      rows.update("lastReadAt = ?1 where id = ?2", now, link.id);
    }
    return new Reader(link.id, whose);
  }

  private static String hash(String secret) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(secret.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("SHA-256 is part of every Java", e);
    }
  }
}
