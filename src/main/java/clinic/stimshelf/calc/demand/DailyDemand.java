package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.Arrays;

/** Demand of one day, days being independent. */
public sealed interface DailyDemand {

  /** Packs a day. */
  double mean();

  /** Variance of the packs of one day. */
  double variance();

  /**
   * Any number of packs, whole or not; the usual approximation for brisk demand.
   *
   * @param mean packs a day, 0 to 1e9
   * @param sd of one day, 0 to 1e9
   */
  record Normal(double mean, double sd) implements DailyDemand {
    public Normal {
      Check.within("demand.meanPerDay", mean, 0, 1e9);
      Check.within("demand.sdPerDay", sd, 0, 1e9);
    }

    @Override
    public double variance() {
      return sd * sd;
    }
  }

  /** Whole packs; laid out over any number of days. */
  sealed interface Whole extends DailyDemand {

    /**
     * @param days 0 or more, whole or not
     * @param matters the smallest number of packs that matters, at most 1
     */
    Counts over(double days, double matters);

    /**
     * Over a number of days that is one of several.
     *
     * @param days each 0 or more, whole or not
     * @param weights the probability of each, summing to 1
     * @param matters the smallest number of packs that matters, at most 1
     */
    default Counts over(double[] days, double[] weights, double matters) {
      return Mixture.of(
          weights, Arrays.stream(days).mapToObj(each -> over(each, matters)).toList());
    }
  }

  /** Single packs, each by chance. */
  record Poisson(double mean) implements Whole {
    public Poisson {
      Check.within("demand.meanPerDay", mean, 0, 1e9);
    }

    @Override
    public double variance() {
      return mean;
    }

    @Override
    public Counts over(double days, double matters) {
      return CompoundPoisson.single(mean).over(days, matters);
    }

    @Override
    public Counts over(double[] days, double[] weights, double matters) {
      return CompoundPoisson.single(mean).over(days, weights, matters);
    }
  }

  /**
   * Whole packs that vary more than chance alone.
   *
   * @param mean packs a day, above 0
   * @param sd of one day; its square above the mean
   */
  record Overdispersed(double mean, double sd) implements Whole {
    public Overdispersed {
      Check.positive("demand.meanPerDay", mean);
      Check.within("demand.sdPerDay", sd, 0, 1e9);
      if (!(sd * sd > mean)) {
        throw new BadInput(
            "demand.sdPerDay",
            "sdPerDay squared is "
                + sd * sd
                + ", but must be above meanPerDay, "
                + mean
                + ", for negative binomial demand.");
      }
    }

    @Override
    public double variance() {
      return sd * sd;
    }

    @Override
    public Counts over(double days, double matters) {
      return days * mean > 0
          ? NegativeBinomial.of(days * mean, days * variance(), matters)
          : Pmf.ZERO;
    }
  }

  /**
   * Takings by chance, each of a batch.
   *
   * @param mean packs (not takings) a day, 0 to 1e9
   */
  record Batches(double mean, BatchSizes sizes) implements Whole {
    public Batches {
      Check.within("demand.meanPerDay", mean, 0, 1e9);
    }

    @Override
    public double variance() {
      return stream().variance();
    }

    @Override
    public Counts over(double days, double matters) {
      return stream().over(days, matters);
    }

    @Override
    public Counts over(double[] days, double[] weights, double matters) {
      return stream().over(days, weights, matters);
    }

    private CompoundPoisson stream() {
      return CompoundPoisson.ofMean(mean, sizes);
    }
  }
}
