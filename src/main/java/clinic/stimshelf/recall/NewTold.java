package clinic.stimshelf.recall;

import java.time.Instant;

/**
 * Who was told, or why they are not.
 *
 * @param told {@code false} where it was decided not to tell them
 * @param spokeWith the person or office, needed where they were told
 * @param reference such as the number of a report, or {@code null}
 * @param words the reason, needed where they are not told
 * @param happenedAt {@code null} for now
 */
public record NewTold(
    Whom whom,
    boolean told,
    String spokeWith,
    String reference,
    String words,
    Instant happenedAt,
    String lateReason) {}
