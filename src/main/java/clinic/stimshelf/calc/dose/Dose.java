package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.math.BigDecimal;
import java.math.BigInteger;

/**
 * A home program's arithmetic, exact.
 *
 * <p>Duty is {@code 100 on/(on + off)}. The literature writes both "25 %" and "1:3" for the same
 * rhythm (Taylor, Fornusek and Ruys, <i>Eur J Transl Myol</i>, "Reporting for duty", part I), so on
 * and off are what is kept and the percentage is derived. Only the session count could be held
 * against printed figures; the rest is arithmetic. The days for which an opened pack may be used
 * are not part of it: see {@link clinic.stimshelf.calc.days.PadPlan}.
 *
 * @param cycleSeconds one contraction with its rest
 * @param contractions in one session
 * @param sessionSeconds length of one session
 * @param dutyPercent above 0, at most 100
 * @param stimulationSeconds on time of one session
 * @param pulses in one session: stimulation seconds x frequency
 * @param sessions in the whole program
 * @param totalContractions in the whole program
 * @param padSets sets of pads for the whole program
 * @param pads single pads
 * @param packs packs to hold them
 */
public record Dose(
    BigDecimal cycleSeconds,
    BigInteger contractions,
    BigDecimal sessionSeconds,
    double dutyPercent,
    BigDecimal stimulationSeconds,
    BigDecimal pulses,
    long sessions,
    BigInteger totalContractions,
    BigInteger padSets,
    BigInteger pads,
    BigInteger packs) {

  /**
   * A dose by its number of contractions.
   *
   * @param contractions in one session, 1 or more
   * @param frequencyHz pulses a second, above 0
   * @throws BadInput if an argument is out of range or an answer too large for a number
   */
  public static Dose of(
      Rhythm rhythm, long contractions, double frequencyHz, Course course, PadUse pads) {
    Check.within("contractions", contractions, 1, 1_000_000_000);
    return of(rhythm, BigInteger.valueOf(contractions), "contractions", frequencyHz, course, pads);
  }

  /**
   * A dose by the length of a session.
   *
   * @param minutes length of one session; at least one contraction must fit
   * @param frequencyHz pulses a second, above 0
   * @throws BadInput if an argument is out of range or an answer too large for a number
   */
  public static Dose ofMinutes(
      Rhythm rhythm, BigDecimal minutes, double frequencyHz, Course course, PadUse pads) {
    return of(rhythm, rhythm.contractionsIn(minutes), "minutes", frequencyHz, course, pads);
  }

  private static Dose of(
      Rhythm rhythm,
      BigInteger contractions,
      String source,
      double frequencyHz,
      Course course,
      PadUse pads) {
    Check.positive("frequencyHz", frequencyHz);
    long sessions = course.sessions();
    BigDecimal stimulation = rhythm.onSeconds().multiply(new BigDecimal(contractions));
    BigDecimal pulses = stimulation.multiply(Decimals.of("frequencyHz", frequencyHz));
    BigDecimal session = rhythm.sessionSeconds(contractions);
    BigInteger total = contractions.multiply(BigInteger.valueOf(sessions));
    if (Double.isInfinite(total.doubleValue())
        || Double.isInfinite(pulses.doubleValue())
        || Double.isInfinite(session.doubleValue())) {
      throw new BadInput(source, "The dose is too large for a number; shorten " + source + ".");
    }
    if (Double.isInfinite(pads.pads(sessions).doubleValue())) {
      throw new BadInput("usesPerPad", "The pads are too many for a number; raise usesPerPad.");
    }
    return new Dose(
        Decimals.plain(rhythm.cycleSeconds()),
        contractions,
        Decimals.plain(session),
        rhythm.dutyPercent(),
        Decimals.plain(stimulation),
        Decimals.plain(pulses),
        sessions,
        total,
        pads.padSets(sessions),
        pads.pads(sessions),
        pads.packs(sessions));
  }
}
