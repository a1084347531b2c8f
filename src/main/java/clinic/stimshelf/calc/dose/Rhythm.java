package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.BadInput;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * The rhythm of stimulation within one session: on, off and the ramps, in seconds.
 *
 * <p>Times are exact decimals, because whether one more contraction fits into the minutes is a
 * floor and must not hang on the last bit of a binary fraction.
 *
 * @param onSeconds contraction time, above 0; the ramps lie within it when {@code rampInsideOn}
 * @param offSeconds rest, 0 or more
 * @param rampUpSeconds 0 or more
 * @param rampDownSeconds 0 or more
 * @param rampInsideOn whether the ramps are part of the on time; otherwise both lengthen the cycle
 * @param dropLastRest whether the session ends with its last contraction instead of a rest
 */
public record Rhythm(
    BigDecimal onSeconds,
    BigDecimal offSeconds,
    BigDecimal rampUpSeconds,
    BigDecimal rampDownSeconds,
    boolean rampInsideOn,
    boolean dropLastRest) {

  private static final BigDecimal SIXTY = BigDecimal.valueOf(60);
  private static final BigDecimal MOST_MINUTES = BigDecimal.valueOf(1_000_000_000);

  /**
   * @throws BadInput if on is not above 0, another time is negative, one is over 100 000 s, or
   *     ramps inside the on time do not fit into it
   */
  public Rhythm {
    Decimals.time("onSeconds", onSeconds);
    if (!(onSeconds.signum() > 0)) {
      throw new BadInput("onSeconds", "onSeconds is 0, but must be a number above 0.");
    }
    Decimals.time("offSeconds", offSeconds);
    Decimals.time("rampUpSeconds", rampUpSeconds);
    Decimals.time("rampDownSeconds", rampDownSeconds);
    if (rampInsideOn && rampUpSeconds.add(rampDownSeconds).compareTo(onSeconds) > 0) {
      throw new BadInput(
          "rampUpSeconds",
          "The ramps take "
              + rampUpSeconds.add(rampDownSeconds).toPlainString()
              + " s, but must fit into the on time of "
              + onSeconds.toPlainString()
              + " s; shorten them or say that they lie outside it.");
    }
  }

  /** A rhythm without ramps that keeps the last rest. */
  public static Rhythm of(BigDecimal onSeconds, BigDecimal offSeconds) {
    return new Rhythm(onSeconds, offSeconds, BigDecimal.ZERO, BigDecimal.ZERO, true, false);
  }

  /** As the canonical constructor, each number read as the shortest decimal that prints it. */
  public static Rhythm of(
      double onSeconds,
      double offSeconds,
      double rampUpSeconds,
      double rampDownSeconds,
      boolean rampInsideOn,
      boolean dropLastRest) {
    return new Rhythm(
        Decimals.of("onSeconds", onSeconds),
        Decimals.of("offSeconds", offSeconds),
        Decimals.of("rampUpSeconds", rampUpSeconds),
        Decimals.of("rampDownSeconds", rampDownSeconds),
        rampInsideOn,
        dropLastRest);
  }

  /**
   * One contraction with its rest: on + off, plus both ramps where they lie outside the on time.
   */
  public BigDecimal cycleSeconds() {
    BigDecimal cycle = onSeconds.add(offSeconds);
    return rampInsideOn ? cycle : cycle.add(rampUpSeconds).add(rampDownSeconds);
  }

  /** Share of the on time, in percent: {@code 100 on / (on + off)}, whatever the ramps are. */
  public double dutyPercent() {
    return BigDecimal.valueOf(100)
        .multiply(onSeconds)
        .divide(onSeconds.add(offSeconds), MathContext.DECIMAL128)
        .doubleValue();
  }

  /**
   * How many whole cycles fit into so many minutes; the last rest need not fit where it is dropped.
   *
   * @param minutes length of the session
   * @return {@code floor((60 minutes [+ off]) / cycle)}, exact
   * @throws BadInput if that is fewer than one, or the minutes are negative or over 1e9
   */
  public BigInteger contractionsIn(BigDecimal minutes) {
    Decimals.within("minutes", minutes, MOST_MINUTES);
    BigDecimal seconds = minutes.multiply(SIXTY);
    BigDecimal room = dropLastRest ? seconds.add(offSeconds) : seconds;
    BigInteger contractions =
        room.divide(cycleSeconds(), 0, RoundingMode.FLOOR).toBigIntegerExact();
    if (minutes.signum() <= 0 || contractions.signum() <= 0) {
      throw new BadInput(
          "minutes",
          "In "
              + minutes.toPlainString()
              + " minutes not one contraction fits; one takes "
              + cycleSeconds().toPlainString()
              + " s.");
    }
    return contractions;
  }

  /** Length of a session: contractions x cycle, less one rest where the last is dropped. */
  public BigDecimal sessionSeconds(BigInteger contractions) {
    BigDecimal all = cycleSeconds().multiply(new BigDecimal(contractions));
    return dropLastRest ? all.subtract(offSeconds) : all;
  }
}
