package clinic.stimshelf.exchange;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How far an import is. */
public enum RunState {
  /** The preview runs. */
  CHECKING,
  /** The preview found nothing wrong; somebody may say that it shall be entered. */
  CHECKED,
  /** Something is wrong; nothing was entered. */
  FAULTY,
  /** It is being entered. */
  ENTERING,
  /** It was entered. */
  DONE,
  /** The program stopped or broke while it ran; nothing was entered. */
  BROKEN;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public boolean running() {
    return this == CHECKING || this == ENTERING;
  }
}
