package clinic.stimshelf.people;

import java.time.Instant;

/** A consent, given or refused, as people read it. */
public record ConsentView(
    Long id,
    ConsentKind kind,
    Long programId,
    boolean given,
    String textVersion,
    String language,
    String signer,
    String relation,
    Means means,
    Instant signedAt) {}
