package clinic.stimshelf.recall;

import java.time.Instant;

/**
 * What somebody who tried to reach a person has to say.
 *
 * @param happenedAt {@code null} for now
 */
public record NewReach(
    Long patientId,
    ReachOutcome outcome,
    String spokeWith,
    String proof,
    String note,
    Instant happenedAt,
    String lateReason) {}
