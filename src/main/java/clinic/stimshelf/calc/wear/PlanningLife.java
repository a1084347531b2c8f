package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.Check;
import java.util.Collection;
import java.util.Optional;

/**
 * How many sessions a plan may give a pad set.
 *
 * @param uses 1 or more
 * @param basis where the number comes from
 * @param worn sets seen to wear out
 * @param observed sets seen at all
 * @param fit the fitted lives, wherever a fit exists
 */
public record PlanningLife(
    int uses, Basis basis, long worn, long observed, Optional<Weibull.Fit> fit) {

  /** Worn sets from which the clinic's own experience counts. */
  public static final int ENOUGH_WORN = 20;

  /** Where a planning life comes from. */
  public enum Basis {
    /** The value set for the pad type: too few sets were seen to wear out. */
    RATED,
    /** The clinic's own sets. */
    FITTED
  }

  /**
   * @param sets one life in sessions for each retirement of a set on one patient; sets that were
   *     lost or still good are going on: they lasted longer than was seen
   * @param ratedUses the value set for the pad type, 1 or more
   * @param reliability share of sets that should last as planned, strictly between 0 and 1
   */
  public static PlanningLife of(Collection<Life> sets, int ratedUses, double reliability) {
    Check.within("ratedUses", ratedUses, 1, 100_000);
    Check.insideUnit("reliability", reliability);
    long worn = sets.stream().filter(Life::ended).mapToLong(Life::count).sum();
    long observed = sets.stream().mapToLong(Life::count).sum();
    Optional<Weibull.Fit> fit = Weibull.fit(sets);
    if (worn < ENOUGH_WORN || fit.isEmpty()) {
      return new PlanningLife(ratedUses, Basis.RATED, worn, observed, fit);
    }
    double uses = fit.get().weibull().planningUses(reliability);
    int whole = (int) Math.max(1, Math.min(Life.LONGEST, uses));
    return new PlanningLife(whole, Basis.FITTED, worn, observed, fit);
  }
}
