package clinic.stimshelf.people;

import java.time.Instant;

/**
 * A consent as entered.
 *
 * @param programId the one program it is for; {@code null} for any
 * @param given whether it was given; {@code false} records a refusal
 * @param textVersion which wording was read, as the agreement names it
 * @param signer who signed
 * @param relation what the signer is: self, mother, guardian, …
 */
public record NewConsent(
    String ref,
    Long patientId,
    ConsentKind kind,
    Long programId,
    boolean given,
    String textVersion,
    String language,
    String signer,
    String relation,
    Means means,
    Instant happenedAt,
    String lateReason) {}
