package clinic.stimshelf.people;

import java.util.List;

/**
 * A question of the safety screening, as {@code config/screening.yaml} words it.
 *
 * @param ask the therapist's words; yes is the answer that matters
 * @param patient the words of the patient's form; {@code null} where only the therapist can know
 * @param region any, local, limb, or a place: head, neck, chest, trunk, pelvis
 * @param alternative a second kind of yes with a weaker effect, or {@code null}
 * @param over a stronger effect near certain places, or {@code null}
 * @param atHome a stronger effect where the unit goes home, or {@code null}
 * @param homeOnly whether it matters only where the unit goes home
 * @param clearedBy who clears a hold or lifts this contraindication; {@code null} if nobody can
 * @param fromMemory whether the source was not re-read for the list
 */
public record Question(
    String key,
    String ask,
    String patient,
    String patientSpanish,
    Effect effect,
    String region,
    Alternative alternative,
    Over over,
    Effect atHome,
    boolean homeOnly,
    String clearedBy,
    String source,
    boolean fromMemory) {

  /** A second kind of yes. */
  public record Alternative(String answer, Effect effect) {}

  /** What counts near certain places instead. */
  public record Over(List<String> near, Effect effect) {}

  /** The words of the patient's form in their language: Spanish for {@code es}, else English. */
  public String patientWords(String language) {
    return "es".equals(language) ? patientSpanish : patient;
  }

  /** Whether the answer depends on the place that is treated. */
  public boolean aboutTheRegion() {
    return !region.equals("any");
  }

  /** Whether it is asked where this region is treated. */
  boolean asked(BodyRegion treated) {
    return switch (region) {
      case "any", "local" -> true;
      case "limb" -> !treated.limb().equals("trunk");
      default -> treated.near().contains(region);
    };
  }

  /** What the answer does; {@code null} for a no, or where it does not matter. */
  Effect effectOf(Answer answer, BodyRegion treated, boolean home) {
    if (answer == Answer.NO || (homeOnly && !home)) {
      return null;
    }
    if (answer == Answer.YES_BUT && alternative != null) {
      return alternative.effect();
    }
    Effect worst = effect;
    if (over != null && over.near().stream().anyMatch(treated.near()::contains)) {
      worst = Effect.stronger(worst, over.effect());
    }
    if (atHome != null && home) {
      worst = Effect.stronger(worst, atHome);
    }
    return worst;
  }
}
