package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.Check;

/**
 * What a plan needs to know of one kind of pads in a program.
 *
 * @param padsPerSession pads worn at once, 1 to 100: a pad set
 * @param padsPerPack 1 to 1 000
 * @param usesPerSet sessions after which a set is replaced, 1 or more
 * @param openDays days for which an opened set or pack may be used, its first day included, 1 or
 *     more; {@link #NEVER_AGES} where age does not matter
 */
public record PadLine(int padsPerSession, int padsPerPack, int usesPerSet, int openDays) {

  /** As {@code openDays}: an opened pack does not age. */
  public static final int NEVER_AGES = 1_000_000;

  public PadLine {
    Check.within("padsPerSession", padsPerSession, 1, 100);
    Check.within("padsPerPack", padsPerPack, 1, 1_000);
    Check.within("usesPerSet", usesPerSet, 1, 1_000_000_000);
    Check.within("openDays", openDays, 1, NEVER_AGES);
  }
}
