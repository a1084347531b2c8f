package clinic.stimshelf.people;

import java.time.LocalDate;

/**
 * A patient as the other rooms see one.
 *
 * @param guardianName who acts for a minor; {@code null} if nobody does
 * @param language as a tag such as {@code en} or {@code es}
 * @param interpreter whether one is needed
 * @param remindersAllowed whether the patient agreed to messages
 * @param diedOn {@code null} while living
 */
public record PatientView(
    Long id,
    String ref,
    String chartNumber,
    String name,
    LocalDate birthDate,
    String guardianName,
    String guardianRelation,
    String language,
    boolean interpreter,
    ReachBy reachBy,
    String phone,
    String email,
    String address,
    boolean remindersAllowed,
    LocalDate diedOn,
    Long locationId,
    int version) {

  /** Full years at that day. */
  public int ageOn(LocalDate day) {
    return Ages.years(birthDate, day);
  }

  /** Whether somebody else must sign for the person on that day. */
  public boolean minorOn(LocalDate day) {
    return Ages.minor(birthDate, day);
  }

  /** Whether messages may be sent at all. */
  public boolean mayBeReminded() {
    return remindersAllowed && diedOn == null;
  }
}
