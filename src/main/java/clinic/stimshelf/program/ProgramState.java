package clinic.stimshelf.program;

import clinic.stimshelf.web.Refusals;
import com.fasterxml.jackson.annotation.JsonValue;

/** How far a home program has come. */
public enum ProgramState {
  /** Written, not signed in any version. */
  DRAFT,
  /** A signed version is in force, before its start, while it runs or after its end. */
  SIGNED,
  /** Signed, and today lies in a pause. */
  PAUSED,
  /** Signed, and stopped until the patient was screened again. */
  HELD,
  /** Ended before its time; nothing further is planned. */
  STOPPED;

  /** As scripts and files spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  /** Why nothing goes on while a program is {@link #HELD}, and what cures it. */
  public static void refuseWhileHeld(String field, Refusals refusals) {
    refusals.add(
        field,
        "The program is stopped until the patient was screened again.",
        "A licensed PT screens again and lets it go on, on the program’s page.");
  }
}
