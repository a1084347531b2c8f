package clinic.stimshelf.program;

import java.time.LocalDate;

/** A home session was entered or voided. Fired within its transaction. */
public record SessionLogged(Long programId, Long patientId, LocalDate day, int nth, boolean used) {}
