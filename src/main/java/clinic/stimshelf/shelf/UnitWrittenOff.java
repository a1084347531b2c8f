package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;

/** A unit that was missing is written off; whoever had it last will not bring it back. */
public record UnitWrittenOff(
    Long unitId, UseKind kind, Long subjectId, String reason, Happened happened) {}
