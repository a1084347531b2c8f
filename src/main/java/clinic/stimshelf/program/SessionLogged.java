package clinic.stimshelf.program;

import java.time.LocalDate;

/**
 * A session at home was told of, or taken back. Fired within its transaction.
 *
 * @param sessions 1 for one that was done, -1 for one whose entry was voided
 */
public record SessionLogged(Long programId, LocalDate day, int sessions) {}
