package clinic.stimshelf.program;

/**
 * What follows from a program changed: a version was signed, a pause entered, the program stopped,
 * or its due day moved. Fired within the transaction of the change, so that loans, owed packs and
 * reminders change with it or not at all.
 */
public record ProgramChanged(Long programId) {}
