package clinic.stimshelf.program;

/** Packs that leave together with the unit. */
public record PacksNow(String code, int packs) {}
