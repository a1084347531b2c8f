package clinic.stimshelf.program;

import java.time.LocalDate;

/**
 * A home session that was logged before the clinic kept it here.
 *
 * @param number of the day, from 1
 */
public record PastSession(
    String ref,
    Long programId,
    LocalDate on,
    int number,
    Outcome outcome,
    LogSource source,
    Integer contractions,
    String intensity,
    String pads,
    String skin,
    boolean padsTrouble,
    boolean skinTrouble,
    String note) {}
