package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonFormat;
import java.time.Instant;
import java.time.LocalDate;

/** A home session of which something is known. */
public record SessionView(
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long id,
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long programId,
    LocalDate on,
    int number,
    Outcome outcome,
    LogSource source,
    Integer contractions,
    String intensity,
    String pads,
    String skin,
    boolean padsTrouble,
    boolean skinTrouble,
    String note,
    Instant at,
    Instant recordedAt,
    String lateReason,
    Instant voidedAt,
    String voidReason) {

  static SessionView of(SessionLog log) {
    return new SessionView(
        log.id,
        log.programId,
        log.onDay,
        log.nth,
        log.outcome,
        log.source,
        log.contractions,
        log.intensity,
        log.padsWords,
        log.skinWords,
        log.padsTrouble,
        log.skinTrouble,
        log.note,
        log.happenedAt,
        log.recordedAt,
        log.lateReason,
        log.voidedAt,
        log.voidReason);
  }
}
