package clinic.stimshelf.pads;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Sessions that nobody told of and that wore a pad set all the same. */
@ApplicationScoped
class ExpectedUses {
  @Inject Locations locations;
  @Inject @Any Instance<UntoldSessions> untold;

  /** By set, from its opening to its end, or to yesterday while it goes on. */
  Map<Long, Integer> of(Collection<PadSet> sets) {
    Map<Long, LocalDate> today =
        sets.stream()
            .map(set -> set.locationId)
            .distinct()
            .collect(Collectors.toMap(Function.identity(), locations::today));
    Map<Long, UntoldSessions.Stretch> stretches = new HashMap<>();
    for (PadSet set : sets) {
      if (set.programId != null) {
        LocalDate end = set.closedOn == null ? today.get(set.locationId) : set.closedOn;
        stretches.put(
            set.id, new UntoldSessions.Stretch(set.programId, set.openedOn, end.minusDays(1)));
      }
    }
    Map<Long, Integer> expected = new HashMap<>();
    if (!stretches.isEmpty()) {
      for (UntoldSessions room : untold) {
        Map<UntoldSessions.Stretch, Integer> told = room.expected(Set.copyOf(stretches.values()));
        stretches.forEach(
            (id, stretch) -> expected.merge(id, told.getOrDefault(stretch, 0), Integer::sum));
      }
    }
    return expected;
  }

  int of(PadSet set) {
    return of(List.of(set)).getOrDefault(set.id, 0);
  }
}
