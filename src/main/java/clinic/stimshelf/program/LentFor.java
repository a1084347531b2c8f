package clinic.stimshelf.program;

import java.util.Collection;
import java.util.Map;

/** What lending knows of programs that run. The room of the desk says it. */
public interface LentFor {

  /**
   * @param waits whether it has no unit because it still waits for one
   * @param callHref where somebody calls about the loan and logs it; {@code null} without a loan
   * @param lastCall what became of the last call, in words; {@code null} for none
   */
  record Lent(boolean waits, String callHref, String lastCall) {}

  /** By program; one that neither has a unit nor waits is absent. Asked for many at once. */
  Map<Long, Lent> of(Long locationId, Collection<Long> programIds);
}
