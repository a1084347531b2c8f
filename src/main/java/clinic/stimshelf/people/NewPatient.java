package clinic.stimshelf.people;

import java.time.LocalDate;

/**
 * A patient as entered. Fields mean what they mean in {@link PatientView}.
 *
 * @param ref a file's own name for the row; {@code null} if typed in
 * @param language {@code null} for English
 * @param reachBy {@code null} if it was not said
 */
public record NewPatient(
    String ref,
    Long locationId,
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
    LocalDate diedOn) {}
