package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.Check;
import clinic.stimshelf.calc.days.Span;
import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;

/**
 * A treatment that wants a unit.
 *
 * @param id unique among the treatments of a plan
 * @param time half-open: the unit is free again at its end, so turnaround belongs into it
 * @param channels that it needs, 1 or more
 * @param keepWith the patient, who should keep the same unit from one treatment to the next; null
 *     if that does not matter
 */
public record Treatment(
    String id, Span<LocalDateTime> time, int channels, @Nullable String keepWith) {

  public Treatment {
    Check.within("channels", channels, 1, 1_000_000_000);
  }
}
