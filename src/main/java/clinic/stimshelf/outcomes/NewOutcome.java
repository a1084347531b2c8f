package clinic.stimshelf.outcomes;

import clinic.stimshelf.people.Side;
import java.math.BigDecimal;
import java.time.Instant;

/**
 * A measurement as entered.
 *
 * @param ref name in a file, or {@code null}
 * @param programId the program it belongs to, or {@code null}
 * @param side the involved side, left or right
 * @param what of which joint or muscle and how, or at which height a girth was taken
 * @param involved value of that side, in the measure's unit
 * @param uninvolved value of the other side; {@code null} for what is reached on one side
 * @param happenedAt {@code null} for now
 */
public record NewOutcome(
    String ref,
    Long patientId,
    Long programId,
    Measure measure,
    Side side,
    String what,
    BigDecimal involved,
    BigDecimal uninvolved,
    String note,
    Instant happenedAt,
    String lateReason) {}
