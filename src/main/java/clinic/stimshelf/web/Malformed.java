package clinic.stimshelf.web;

import java.util.List;

/** A call that cannot be read: 400, naming each field and what is allowed for it. */
public class Malformed extends RuntimeException {
  private final transient List<Reason> reasons;

  public Malformed(String field, String message) {
    this(List.of(new Reason(field, message, null)));
  }

  public Malformed(List<Reason> reasons) {
    super(reasons.get(0).words());
    this.reasons = List.copyOf(reasons);
  }

  public List<Reason> reasons() {
    return reasons;
  }
}
