package clinic.stimshelf.web;

import java.util.ArrayList;
import java.util.List;

/** Collects every reason against one action, so that a person hears all of them at once. */
public final class Refusals {
  private final List<Reason> reasons = new ArrayList<>();

  /** Adds a reason about one field of the form or call ({@code null}: about the whole action). */
  public Refusals add(String field, String message) {
    return add(field, message, null);
  }

  /** Adds a reason together with the step that cures it. */
  public Refusals add(String field, String message, String cure) {
    reasons.add(new Reason(field, message, cure));
    return this;
  }

  public Refusals addAll(List<Reason> more) {
    reasons.addAll(more);
    return this;
  }

  public boolean any() {
    return !reasons.isEmpty();
  }

  public List<Reason> reasons() {
    return List.copyOf(reasons);
  }

  /**
   * Refuses the action if anything was added.
   *
   * @throws Refusal with all the reasons
   */
  public void throwIfAny() {
    if (any()) {
      throw new Refusal(reasons());
    }
  }
}
