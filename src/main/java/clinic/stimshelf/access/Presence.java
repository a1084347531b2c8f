package clinic.stimshelf.access;

import java.time.Instant;
import java.util.List;

/**
 * Who stands behind a call, as found when it was let in.
 *
 * @param role of the account or, if narrower, of the access key
 * @param locationIds where the caller may act
 * @param locationId whose matters pages show; {@code null} where the person has no location
 * @param sessionId the browser's session, {@code null} for scripts
 * @param formToken what forms of this session send back, empty for scripts
 * @param through words for the trail: empty, or the access key's name
 * @param signsOutAt when an untouched session ends, {@code null} for scripts
 * @param endsAt when the session ends in any case, {@code null} for scripts
 */
record Presence(
    StaffView staff,
    String role,
    List<Long> locationIds,
    Long locationId,
    Long sessionId,
    String formToken,
    boolean privacy,
    String through,
    Instant signsOutAt,
    Instant endsAt) {

  /** The attribute of the security identity that holds it. */
  static final String KEY = "clinic.stimshelf.presence";

  /** Somebody without a browser: by password over Basic, or the program on a person's behalf. */
  static Presence of(StaffView staff) {
    return new Presence(
        staff,
        staff.role(),
        staff.locationIds(),
        first(staff.locationIds()),
        null,
        "",
        false,
        "",
        null,
        null);
  }

  static Long first(List<Long> ids) {
    return ids.isEmpty() ? null : ids.get(0);
  }
}
