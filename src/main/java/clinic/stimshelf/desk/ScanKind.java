package clinic.stimshelf.desk;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a scanned or typed text turned out to be. */
public enum ScanKind {
  UNIT,
  PATIENT,
  UDI,
  ORDER,
  UNKNOWN;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
