package clinic.stimshelf.recall;

import java.time.Instant;
import java.time.LocalDate;

/**
 * What somebody who enters an incident says.
 *
 * @param unitTag the unit, or {@code null} where none is known
 * @param chartNumber the patient; {@code null} for whoever had the unit at that time
 * @param words what happened; at most 1000 characters
 * @param happenedAt {@code null} for now
 * @param awareOn the day on which the clinic heard of it, {@code null} for today
 */
public record NewIncident(
    String unitTag,
    String chartNumber,
    IncidentKind kind,
    Harm harm,
    String words,
    Instant happenedAt,
    LocalDate awareOn) {}
