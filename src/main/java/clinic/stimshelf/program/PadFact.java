package clinic.stimshelf.program;

import java.math.BigDecimal;

/**
 * What a program needs to know of a pad type.
 *
 * @param usesPerSet sessions a set is planned to last
 * @param openDays days an opened pouch may be used
 * @param areaCm2 of one pad
 */
record PadFact(
    String code, String name, int padsPerPack, int usesPerSet, int openDays, BigDecimal areaCm2) {}
