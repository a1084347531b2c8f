package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonFormat;
import java.time.Instant;
import java.time.LocalDate;

/** A clearance as people read it; {@code region} and {@code side} are {@code null} for all. */
public record ClearanceView(
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long id,
    String question,
    String questionWords,
    String region,
    Side side,
    String clearedBy,
    LocalDate clearedOn,
    LocalDate validUntil,
    String scope,
    Instant recordedAt,
    String withdrawnReason) {}
