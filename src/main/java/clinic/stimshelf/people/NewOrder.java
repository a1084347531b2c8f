package clinic.stimshelf.people;

import java.time.LocalDate;

/**
 * A prescriber's order as entered.
 *
 * @param endsOn last day it holds; {@code null} without end
 * @param ordered what is ordered, in the prescriber's words
 * @param restrictions such as no weight bearing, or {@code null}
 */
public record NewOrder(
    String ref,
    Long patientId,
    String prescriber,
    LocalDate orderedOn,
    LocalDate endsOn,
    String ordered,
    String restrictions) {}
