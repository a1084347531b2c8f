package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonValue;

/** What one version of a program is. */
public enum VersionState {
  /** Being written. */
  DRAFT,
  /** Signed and in force. */
  SIGNED,
  /** Was signed, until a later version was. */
  REPLACED,
  /** Was never signed; a later draft took its place. */
  SET_ASIDE;

  @JsonValue
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
