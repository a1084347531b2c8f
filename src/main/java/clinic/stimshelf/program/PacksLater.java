package clinic.stimshelf.program;

import java.time.LocalDate;

/** Packs that are owed on a later day. */
public record PacksLater(String code, LocalDate on, int packs) {}
