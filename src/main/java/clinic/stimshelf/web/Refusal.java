package clinic.stimshelf.web;

import java.util.List;
import java.util.stream.Collectors;

/**
 * The rules stand against an action: 422 for a script, the same page with every reason for a
 * person.
 */
public class Refusal extends RuntimeException {
  private final transient List<Reason> reasons;

  public Refusal(List<Reason> reasons) {
    super(reasons.stream().map(Reason::words).collect(Collectors.joining(" ")));
    this.reasons = List.copyOf(reasons);
  }

  public Refusal(String field, String message) {
    this(List.of(new Reason(field, message, null)));
  }

  public Refusal(String field, String message, String cure) {
    this(List.of(new Reason(field, message, cure)));
  }

  public List<Reason> reasons() {
    return reasons;
  }
}
