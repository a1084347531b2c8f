package clinic.stimshelf.program;

import clinic.stimshelf.people.PatientView;

/** A signed program that a therapist follows, with its patient and how it goes. */
record Running(Program program, ProgramVersion version, PatientView patient, Adherence followed) {}
