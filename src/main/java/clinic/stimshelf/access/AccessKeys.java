package clinic.stimshelf.access;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What scripts sign in with. A key acts in the name of the person who made it, in one role and at
 * some of their locations, until it is revoked or the person's account ends.
 */
@ApplicationScoped
public class AccessKeys {
  @Inject AccessKeyRows rows;

  @Inject Staff staff;

  @Inject Locations locations;

  @Inject SignedIn signedIn;

  @Inject Trail trail;

  @Inject EventTimes times;

  @Inject Clock clock;

  @Inject SecureRandom random;

  /** A new key: shown this once, stored only as its hash. */
  public record NewKey(AccessKeyView key, String secret) {}

  /**
   * Makes a key for the person who acts.
   *
   * @param role their own, or for a manager any
   * @param locationIds some of their own
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public NewKey make(String name, String role, List<Long> locationIds) {
    StaffView owner = signedIn.staff();
    Refusals refusals = new Refusals();
    String words = name == null ? "" : name.strip();
    if (words.isEmpty() || words.length() > 80) {
      refusals.add("name", "Name the key in 1 to 80 characters by what uses it.");
    }
    // The role of this call: a key of a narrower role makes no key of a wider one.
    String holds = signedIn.presence().role();
    boolean chosen = holds.equals(Roles.MANAGER) && Staff.ROLES.contains(role);
    if (!holds.equals(role) && !chosen) {
      refusals.add("role", "A key can have your own role, " + holds + ".");
    }
    if (locationIds == null || locationIds.isEmpty()) {
      refusals.add("locations", "Choose at least one location.");
    } else if (!signedIn.locationIds().containsAll(locationIds)) {
      refusals.add("locations", "A key works at your own locations only.");
    }
    refusals.throwIfAny();
    String secret = Secrets.token(random);
    AccessKey key = new AccessKey();
    key.staff = staff.member(owner.id());
    key.name = words;
    key.role = role;
    key.keyHash = Secrets.sha256(secret);
    key.madeAt = clock.instant();
    key.locationIds.addAll(locationIds);
    rows.persistAndFlush(key);
    AccessKeyView view = view(key, codes());
    record(key, "access key made", null, view);
    return new NewKey(view, secret);
  }

  /** The acting person's keys, or everybody's for a manager; the newest first. */
  @Transactional
  public List<AccessKeyView> list() {
    Map<Long, String> codes = codes();
    String all =
        "from AccessKey k join fetch k.staff left join fetch k.locationIds"
            + " where k.staff.id = ?1 or ?2 = true order by k.id desc";
    return rows.find(all, signedIn.staff().id(), signedIn.has(Roles.MANAGER)).stream()
        .map(key -> view(key, codes))
        .toList();
  }

  /**
   * Revokes a key; from this moment on it opens nothing.
   *
   * @throws NotFound if it is neither the acting person's own nor they a manager
   */
  @Transactional
  public void revoke(String id) {
    AccessKey key = id.matches("\\d{1,18}") ? rows.findById(Long.valueOf(id)) : null;
    if (key == null || !(key.staff.id.equals(signedIn.staffId()) || signedIn.has(Roles.MANAGER))) {
      throw new NotFound("There is no such access key.");
    }
    if (key.revokedAt == null) {
      AccessKeyView before = view(key, codes());
      key.revokedAt = clock.instant();
      record(key, "access key revoked", before, view(key, codes()));
    }
  }

  /** Who stands behind a key, if it still works. */
  @Transactional
  Optional<Presence> find(String secret) {
    Optional<AccessKey> found =
        rows
            .find(
                "from AccessKey k join fetch k.staff s left join fetch s.locationIds"
                    + " where k.keyHash = ?1 and k.revokedAt is null and s.active",
                Secrets.sha256(secret))
            .stream()
            .findFirst();
    found.ifPresent(this::used);
    return found.map(AccessKeys::presence);
  }

  private static Presence presence(AccessKey key) {
    Set<Long> allowed = new HashSet<>(key.locationIds);
    allowed.retainAll(key.staff.locationIds);
    List<Long> mine = StaffMember.sorted(allowed);
    // An account that lost its higher role takes the key's down with it.
    boolean holds = key.staff.role.equals(key.role) || key.staff.role.equals(Roles.MANAGER);
    return new Presence(
        key.staff.view(),
        holds ? key.role : key.staff.role,
        mine,
        Presence.first(mine),
        null,
        "",
        false,
        "access key " + key.name,
        null,
        null);
  }

  /** By the hour is enough to see that a key is in use. */
  private void used(AccessKey key) {
    Instant now = clock.instant();
    if (key.lastUsedAt == null
        || Duration.between(key.lastUsedAt, now).compareTo(Duration.ofHours(1)) >= 0) {
      rows.update("lastUsedAt = ?1 where id = ?2", now, key.id);
    }
  }

  private Map<Long, String> codes() {
    return locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
  }

  private void record(AccessKey key, String action, AccessKeyView before, AccessKeyView after) {
    trail.record(Subject.of("staff", key.staff.id), action, times.now(), before, after);
  }

  private static AccessKeyView view(AccessKey key, Map<Long, String> codes) {
    return new AccessKeyView(
        String.valueOf(key.id),
        key.name,
        key.staff.name,
        key.role,
        StaffMember.sorted(key.locationIds).stream().map(codes::get).toList(),
        key.madeAt,
        key.lastUsedAt,
        key.revokedAt);
  }
}
