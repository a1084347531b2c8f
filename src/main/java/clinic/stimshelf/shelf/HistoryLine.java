package clinic.stimshelf.shelf;

import java.time.Instant;

/**
 * Something that happened to a unit.
 *
 * @param to end of a stretch of time; {@code null} for a moment, or while it lasts
 * @param kind loan, treatment, wipe, inspection, test, charge, fault, or what the trail calls it
 * @param words what happened, as a phrase without anybody's name
 * @param by who did or told it, {@code null} where the entry itself does not say
 * @param lateReason why it was entered later than its day, else {@code null}
 */
public record HistoryLine(
    Instant at, Instant to, String kind, String words, String by, String lateReason) {}
