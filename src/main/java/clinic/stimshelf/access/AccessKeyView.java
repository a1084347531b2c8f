package clinic.stimshelf.access;

import java.time.Instant;
import java.util.List;

/** An access key as it is listed: never the key itself. */
public record AccessKeyView(
    String id,
    String name,
    String staff,
    String role,
    List<String> locations,
    Instant madeAt,
    Instant lastUsedAt,
    Instant revokedAt) {}
