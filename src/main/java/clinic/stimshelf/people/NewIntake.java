package clinic.stimshelf.people;

import java.time.Instant;
import java.util.Map;

/**
 * A patient's own answers as entered.
 *
 * @param muscle to be treated, by its key; {@code null} where it is not known yet
 * @param side {@code null} where it is not known yet
 * @param language in which it was asked
 * @param answeredBy the patient's name, or who acts for them
 * @param means screen, or paper that the front desk types in
 * @param answers by question; yes, no or not sure
 */
public record NewIntake(
    Long patientId,
    String muscle,
    Side side,
    String language,
    String answeredBy,
    Means means,
    Map<String, Answer> answers,
    Instant happenedAt,
    String lateReason) {}
