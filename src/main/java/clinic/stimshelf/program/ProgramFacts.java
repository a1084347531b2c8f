package clinic.stimshelf.program;

/**
 * What entering the past needs of a program.
 *
 * @param version number of the version in force, or of the draft
 * @param dueWord the kind of due day as scripts spell it
 */
public record ProgramFacts(Long id, Long patientId, Long locationId, int version, String dueWord) {}
