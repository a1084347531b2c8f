package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.numbers.gamma.RegularizedBeta;

/**
 * Is one lot worse than the rest? Given all failures together, those of one lot are binomial with
 * its share of the uses (Przyborowski and Wilenski 1940, <i>Biometrika</i> 31:313-323; from
 * memory); the p-value is the exact upper tail {@code P(X >= observed)}, one-sided, because only a
 * worse lot matters. {@link Holm} adjusts over all lots.
 *
 * @param lots in the order given
 * @param alpha the level below or at which an adjusted p-value makes a lot suspect
 */
public record LotComparison(List<Result> lots, double alpha) {

  private static final long MOST_USES = 1_000_000_000;

  /**
   * What was seen of a lot.
   *
   * @param lot its name
   * @param failures 0 to uses
   * @param uses 1 to 1e9
   */
  public record Lot(String lot, long failures, long uses) {
    public Lot {
      Check.within("uses", uses, 1, MOST_USES);
      Check.within("failures", failures, 0, uses);
    }
  }

  /**
   * A lot beside the others.
   *
   * @param lot as given
   * @param ratePerThousand failures per 1 000 uses
   * @param pValue chance of so many failures or more if all lots were alike
   * @param adjustedPValue after Holm, over all lots
   * @param suspect whether the adjusted value is at or below alpha
   */
  public record Result(
      Lot lot, double ratePerThousand, double pValue, double adjustedPValue, boolean suspect) {}

  public LotComparison {
    lots = List.copyOf(lots);
  }

  /**
   * @param lots any number; one lot alone is never suspect
   * @param alpha 0 to 1
   */
  public static LotComparison of(List<Lot> lots, double alpha) {
    Check.probability("alpha", alpha);
    long failures = lots.stream().mapToLong(Lot::failures).sum();
    double uses = lots.stream().mapToDouble(Lot::uses).sum();
    double[] p =
        lots.stream()
            .mapToDouble(l -> upperTail(l.failures(), failures, l.uses() / uses))
            .toArray();
    double[] adjusted = Holm.adjust(p);
    List<Result> results = new ArrayList<>(lots.size());
    for (int i = 0; i < p.length; i++) {
      Lot lot = lots.get(i);
      results.add(
          new Result(
              lot, 1000.0 * lot.failures() / lot.uses(), p[i], adjusted[i], adjusted[i] <= alpha));
    }
    return new LotComparison(results, alpha);
  }

  /** {@code P(X >= observed)} for X binomial (total, share): {@code I_share(x, total − x + 1)}. */
  static double upperTail(long observed, long total, double share) {
    if (observed == 0 || share >= 1) {
      return 1;
    }
    return Math.min(1, RegularizedBeta.value(share, observed, total - observed + 1.0));
  }
}
