package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.Check;
import clinic.stimshelf.calc.days.Span;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Something that serves one treatment at a time and has other things to do as well: a unit, or one
 * place in a therapist's hour.
 *
 * @param id unique among those of a plan
 * @param channels that it has, 1 or more
 * @param busy when it serves none; spans that touch or overlap are joined
 */
public record BusyUnit(String id, int channels, List<Span<LocalDateTime>> busy) {

  public BusyUnit {
    Check.within("channels", channels, 1, 1_000_000_000);
    List<Span<LocalDateTime>> joined = new ArrayList<>();
    for (Span<LocalDateTime> span :
        busy.stream().sorted(Comparator.comparing(Span<LocalDateTime>::start)).toList()) {
      int last = joined.size() - 1;
      if (last >= 0 && joined.get(last).isConnected(span)) {
        joined.set(last, joined.get(last).hull(span));
      } else {
        joined.add(span);
      }
    }
    busy = List.copyOf(joined);
  }

  boolean freeFor(Treatment treatment) {
    return channels >= treatment.channels()
        && busy.stream().noneMatch(span -> span.overlaps(treatment.time()));
  }
}
