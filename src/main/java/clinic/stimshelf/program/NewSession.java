package clinic.stimshelf.program;

import java.time.LocalDate;

/**
 * A home session as somebody tells of it.
 *
 * @param on its day; {@code null} for the day it is entered
 * @param number of the day, from 1; {@code null} for the first one of which nothing is known
 * @param contractions made, or {@code null}
 * @param intensity reached, in words or as the unit shows it, or {@code null}
 * @param pads how the pads were, in words, or {@code null}
 * @param skin how the skin was, in words, or {@code null}
 * @param padsTrouble whether somebody must look at the pads
 * @param skinTrouble whether somebody must look at the skin
 */
public record NewSession(
    LocalDate on,
    Integer number,
    Outcome outcome,
    LogSource source,
    Integer contractions,
    String intensity,
    String pads,
    String skin,
    boolean padsTrouble,
    boolean skinTrouble,
    String note) {}
