package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.Check;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Several tests at once without more false alarms than one (Holm 1979, <i>Scand J Stat</i>
 * 6:65-70): the i-th smallest of m p-values, counted from 0, is multiplied by m − i, never below
 * the one before and never above 1.
 */
public final class Holm {

  private Holm() {}

  /**
   * @param pValues each 0 to 1
   * @return the adjusted values in the same order
   */
  public static double[] adjust(double... pValues) {
    double[] adjusted = new double[pValues.length];
    List<Integer> ascending =
        IntStream.range(0, pValues.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> Check.probability("pValue", pValues[i])))
            .toList();
    double running = 0;
    for (int rank = 0; rank < adjusted.length; rank++) {
      int i = ascending.get(rank);
      running = Math.max(running, Math.min(1, (adjusted.length - rank) * pValues[i]));
      adjusted[i] = running;
    }
    return adjusted;
  }
}
