package clinic.stimshelf.pads;

import java.time.Instant;
import java.util.List;

/**
 * How long sets of a pad type last, and which lot is worse than the rest.
 *
 * @param ratedUses sessions a set is planned to last as long as the clinic has too little of its
 *     own
 * @param plannedUses sessions that plans count on now
 * @param own whether that comes from the clinic's own sets
 * @param worn sets that were seen to come to their end
 * @param observed sets whose use has ended, however
 * @param needed worn sets from which the clinic's own life counts
 * @param reliability share of sets that should last as planned
 * @param shape of the fitted Weibull lives, or {@code null} without a fit
 * @param scale of the same, in sessions
 * @param ends how sets ended, most frequent first
 * @param steps share of sets that lasted longer, by sessions
 * @param lots of sets opened in the time looked at, worst first
 * @param changes when the planned life changed, newest first
 */
public record WearView(
    String code,
    String name,
    int ratedUses,
    int plannedUses,
    boolean own,
    long worn,
    long observed,
    int needed,
    double reliability,
    Double shape,
    Double scale,
    List<End> ends,
    List<Step> steps,
    List<Lot> lots,
    List<Change> changes) {

  /** Sets that ended in one way. */
  public record End(PadOutcome outcome, long sets) {}

  /**
   * A step of the life curve.
   *
   * @param atRisk sets still in use just before
   * @param lasting share that lasted longer than so many sessions
   * @param fitted the same by the fitted lives, or {@code null} without a fit
   */
  public record Step(double uses, long atRisk, long ended, double lasting, Double fitted) {}

  /**
   * A lot beside the other lots of its type.
   *
   * @param early sets that would not stick, dried out, or were worn before the rated uses
   * @param patients on whom that happened
   * @param perThousand early ends per 1 000 uses
   * @param chance of so many early ends or more if all lots were alike
   * @param adjusted the same, adjusted for looking at every lot (Holm)
   * @param standsOut whether the adjusted chance is at or below the level
   * @param proposed whether holding it back is proposed: it stands out, on three patients or more
   */
  public record Lot(
      String id,
      String lot,
      LotState state,
      long sets,
      long uses,
      long early,
      long patients,
      double perThousand,
      double chance,
      double adjusted,
      boolean standsOut,
      boolean proposed) {

    /** What somebody who holds it back would say. */
    public String reason() {
      return early
          + " of "
          + sets
          + " sets ended early, on "
          + patients
          + " patients: more than the other lots explain";
    }
  }

  /** A change of the planned life: both numbers. */
  public record Change(Instant at, String from, String to) {}

  /** Lots for which holding back is proposed. */
  public List<Lot> proposed() {
    return lots.stream().filter(Lot::proposed).toList();
  }
}
