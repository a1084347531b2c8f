package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** The turns a loan can take. */
public enum ChangeKind {
  EXTENSION,
  SWAP,
  DUE_MOVED,
  BRING_IN,
  MISSING,
  FOUND,
  WRITTEN_OFF,
  VOID,
  MIX_UP,
  PACKS_GIVEN,
  SETTLED;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As people read it. */
  public String words() {
    return switch (this) {
      case EXTENSION -> "extended";
      case SWAP -> "unit swapped";
      case DUE_MOVED -> "due day moved";
      case BRING_IN -> "safety test booked";
      case MISSING -> "unit missing";
      case FOUND -> "unit found";
      case WRITTEN_OFF -> "unit written off";
      case VOID -> "void";
      case MIX_UP -> "mix-up put right";
      case PACKS_GIVEN -> "packs given";
      case SETTLED -> "settled";
    };
  }
}
