package clinic.stimshelf.audit;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;

/** A line of the trail as people and scripts read it. */
public record TrailEntry(
    String id,
    Instant at,
    Instant recordedAt,
    String by,
    String subject,
    String action,
    String lateReason,
    JsonNode before,
    JsonNode after) {}
