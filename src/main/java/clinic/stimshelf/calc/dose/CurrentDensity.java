package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.Check;

/**
 * Current density under a pad for symmetric two-phase pulses, as its root mean square over the on
 * time, which is the worst case.
 *
 * <p>{@code Irms = I sqrt(2 w f)} with the peak current I, the width w of one phase and the
 * frequency f; density = Irms / area of the smallest pad (physics of a rectangular wave). It does
 * not fit bursts of alternating current, nor a unit whose output is a level without a current. A
 * pad that touches with half its face doubles it.
 *
 * <p>IEC 60601-2-10, 201.7.9.2.101, asks that instructions call for special care above 2 mA/cm²: a
 * notice, no limit.
 *
 * @param rmsMilliamperes root mean square of the current
 * @param milliamperesPerCm2 the density
 */
public record CurrentDensity(double rmsMilliamperes, double milliamperesPerCm2) {

  /** Above this the operator should take special care, in mA/cm². */
  public static final double CARE_ABOVE = 2.0;

  /**
   * @param peakMilliamperes above 0, at most 1 000
   * @param phaseMicroseconds width of one phase, above 0
   * @param frequencyHz pulses a second, above 0
   * @param areaCm2 of the smallest pad, above 0
   * @throws clinic.stimshelf.calc.BadInput if an argument is out of range, or if both phases of a
   *     pulse do not fit between two pulses
   */
  public static CurrentDensity of(
      double peakMilliamperes, double phaseMicroseconds, double frequencyHz, double areaCm2) {
    Check.positive("peakMilliamperes", peakMilliamperes);
    Check.within("peakMilliamperes", peakMilliamperes, 0, 1_000);
    Check.positive("phaseMicroseconds", phaseMicroseconds);
    Check.positive("frequencyHz", frequencyHz);
    Check.positive("areaCm2", areaCm2);
    double share = 2 * phaseMicroseconds * 1e-6 * frequencyHz;
    Check.within("phaseMicroseconds x frequencyHz", share, 0, 1);
    double rms = peakMilliamperes * Math.sqrt(share);
    return new CurrentDensity(rms, rms / areaCm2);
  }

  /** Whether the operator should take special care. */
  public boolean callsForCare() {
    return milliamperesPerCm2 > CARE_ABOVE;
  }
}
