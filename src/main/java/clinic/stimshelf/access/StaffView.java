package clinic.stimshelf.access;

import java.time.LocalDate;
import java.util.List;

/**
 * A staff member as the other rooms see one.
 *
 * @param ref the clinic's own short name for the person, as files use it
 * @param licenseEndsOn last day of the license; {@code null} where none is recorded
 * @param role front-desk, therapist or manager
 * @param username {@code null} for somebody without an account
 * @param passwordSet whether the account can sign in by password
 * @param locationIds where the person works
 */
public record StaffView(
    Long id,
    String ref,
    String name,
    String initials,
    Credential credential,
    String licenseNumber,
    LocalDate licenseEndsOn,
    String role,
    String username,
    boolean passwordSet,
    boolean active,
    List<Long> locationIds,
    int version) {

  /** Whether the person may sign programs and accept precautions on that day. */
  public boolean mayLicensedPt(LocalDate day) {
    return active && credential == Credential.PT && licenseRuns(day);
  }

  /** Whether no recorded license has ended before that day. */
  public boolean licenseRuns(LocalDate day) {
    return licenseEndsOn == null || !day.isAfter(licenseEndsOn);
  }
}
