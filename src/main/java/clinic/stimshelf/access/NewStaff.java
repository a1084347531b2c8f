package clinic.stimshelf.access;

import java.time.LocalDate;
import java.util.List;

/**
 * A staff member as entered.
 *
 * @param ref the clinic's own short name, {@code [A-Za-z0-9._-]{1,32}}
 * @param initials 1 to 8 characters; blank: taken from the name
 * @param licenseNumber may be {@code null}
 * @param licenseEndsOn last day of the license, may be {@code null}
 * @param username {@code null} for somebody who never signs in
 */
public record NewStaff(
    String ref,
    String name,
    String initials,
    Credential credential,
    String licenseNumber,
    LocalDate licenseEndsOn,
    String role,
    String username,
    List<Long> locationIds) {}
