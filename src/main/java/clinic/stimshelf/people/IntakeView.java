package clinic.stimshelf.people;

import java.time.Instant;
import java.util.Map;

/** A patient's own answers as people read them. */
public record IntakeView(
    Long id,
    Long patientId,
    String region,
    Side side,
    String language,
    String answeredBy,
    Means means,
    Instant answeredAt,
    Map<String, Answer> answers) {

  /** How many answers are not a plain no. */
  public long exceptions() {
    return answers.values().stream().filter(answer -> answer != Answer.NO).count();
  }
}
