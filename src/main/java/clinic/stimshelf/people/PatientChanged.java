package clinic.stimshelf.people;

/** Something about a patient changed that others may act on: language, ways to reach, a death. */
public record PatientChanged(Long patientId) {}
