package clinic.stimshelf.recall;

import java.time.Instant;

/**
 * An attempt to reach somebody: the proof that it was tried.
 *
 * @param spokeWith who answered, where it was somebody else, or {@code null}
 * @param proof such as the number of a registered letter, or {@code null}
 * @param at when it took place
 * @param lateReason why it was entered only later, or {@code null}
 */
public record ReachView(
    ReachOutcome outcome,
    String spokeWith,
    String proof,
    String note,
    Instant at,
    Instant recordedAt,
    String lateReason,
    String by) {}
