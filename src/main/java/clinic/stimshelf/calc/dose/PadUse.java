package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;

/**
 * One pad line of a program.
 *
 * @param padsPerSession pads worn at once, 1 or more
 * @param usesPerPad sessions that a pad serves, above 0, at most 100 000; on average, so whole or
 *     not
 * @param padsPerPack 1 or more
 */
public record PadUse(int padsPerSession, BigDecimal usesPerPad, int padsPerPack) {

  private static final int MOST = 1_000_000_000;
  private static final BigDecimal MOST_USES = BigDecimal.valueOf(100_000);

  public PadUse {
    Check.within("padsPerSession", padsPerSession, 1, MOST);
    Decimals.within("usesPerPad", usesPerPad, MOST_USES);
    if (!(usesPerPad.signum() > 0)) {
      throw new BadInput("usesPerPad", "usesPerPad is 0, but must be a number above 0.");
    }
    Check.within("padsPerPack", padsPerPack, 1, MOST);
  }

  /** With a whole number of uses. */
  public PadUse(int padsPerSession, int usesPerPad, int padsPerPack) {
    this(padsPerSession, BigDecimal.valueOf(usesPerPad), padsPerPack);
  }

  /** Sets for so many sessions: {@code ceil(sessions / usesPerPad)}. */
  public BigInteger padSets(long sessions) {
    Check.within("sessions", sessions, 0, Long.MAX_VALUE);
    return BigDecimal.valueOf(sessions)
        .divide(usesPerPad, 0, RoundingMode.CEILING)
        .toBigIntegerExact();
  }

  /** Single pads for so many sessions. */
  public BigInteger pads(long sessions) {
    return padSets(sessions).multiply(BigInteger.valueOf(padsPerSession));
  }

  /** Packs for so many sessions, not counting what an opened pack loses by age. */
  public BigInteger packs(long sessions) {
    BigInteger[] whole = pads(sessions).divideAndRemainder(BigInteger.valueOf(padsPerPack));
    return whole[1].signum() > 0 ? whole[0].add(BigInteger.ONE) : whole[0];
  }
}
