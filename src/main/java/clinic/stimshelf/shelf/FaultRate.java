package clinic.stimshelf.shelf;

import java.util.Locale;

/**
 * Faults beside the sessions in which they could show. A use whose sessions nobody counted counts
 * as one.
 */
public record FaultRate(long faults, long sessions) {

  /** Faults per 100 sessions; 0 where there was no session. */
  public double per100() {
    return sessions == 0 ? 0 : 100.0 * faults / sessions;
  }

  /** As people read it, with one decimal place. */
  public String words() {
    return String.format(Locale.US, "%.1f", per100());
  }

  /** Below 20 sessions a rate says little (common practice, no source). */
  public boolean few() {
    return sessions < 20;
  }
}
