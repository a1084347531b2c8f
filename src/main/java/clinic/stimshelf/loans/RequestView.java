package clinic.stimshelf.loans;

import java.time.Instant;
import java.time.LocalDate;

/**
 * A request as people and scripts see it.
 *
 * @param ahead open requests at the location that come first and could use the same kind of unit
 * @param sureByOn first day on which a unit is sure enough; {@code null} with {@code sureByReason}
 * @param chanceOnWishedDay chance from 0 to 1 that a unit is there on the day it is needed
 */
public record RequestView(
    String id,
    String programId,
    String patientId,
    String chartNumber,
    String location,
    LocalDate neededFrom,
    int priority,
    int channels,
    RequestState state,
    String unitTag,
    Instant waitingSince,
    int ahead,
    LocalDate sureByOn,
    String sureByReason,
    Double chanceOnWishedDay,
    int version) {}
