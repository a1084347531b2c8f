package clinic.stimshelf.shelf;

import java.time.LocalDate;

/**
 * A unit to be added, with the kit that its kind comes with.
 *
 * @param tag {@code null} for the next free one
 * @param kind code of its kind
 * @param spotId where it stands, or {@code null}
 * @param purpose home, clinic or both
 * @param nextTestOn {@code null} if it is still to be tested
 */
public record NewUnit(
    String tag,
    String serial,
    String kind,
    Long locationId,
    Long spotId,
    String purpose,
    LocalDate nextTestOn,
    LocalDate acquiredOn,
    Integer useCounter,
    String ownerWords) {}
