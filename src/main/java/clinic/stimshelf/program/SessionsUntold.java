package clinic.stimshelf.program;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.UntoldSessions;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Sessions of programs that nobody told of, and how many of them probably took place. */
@ApplicationScoped
class SessionsUntold implements UntoldSessions {
  @Inject ProgramRows rows;
  @Inject SessionLogs logs;
  @Inject Locations locations;

  @Override
  @Transactional
  public Map<Stretch, Integer> expected(Collection<Stretch> stretches) {
    List<Long> ids = stretches.stream().map(Stretch::programId).distinct().toList();
    Map<Stretch, Integer> expected = new HashMap<>();
    if (ids.isEmpty()) {
      return expected;
    }
    Map<Long, Program> programs =
        rows.list("id in ?1", ids).stream()
            .collect(Collectors.toMap(program -> program.id, Function.identity()));
    Map<Long, List<Adherence.Known>> known = logs.known(ids);
    for (Stretch stretch : stretches) {
      Program program = programs.get(stretch.programId());
      if (program != null) {
        expected.put(
            stretch, expected(program, stretch, known.getOrDefault(program.id, List.of())));
      }
    }
    return expected;
  }

  private int expected(Program program, Stretch stretch, List<Adherence.Known> known) {
    Planned planned = Planned.of(program, locations.zone(program.locationId));
    if (!planned.any()) {
      return 0;
    }
    LocalDate yesterday = locations.today(program.locationId).minusDays(1);
    LocalDate to = earlier(earlier(stretch.to(), yesterday), planned.last());
    LocalDate from = stretch.from().isBefore(planned.start()) ? planned.start() : stretch.from();
    if (from.isAfter(to)) {
      return 0;
    }
    double unknown = Adherence.of(planned, known, from, to).notLogged();
    Adherence whole = Adherence.of(planned, known, planned.start(), to);
    return Math.toIntExact(
        Math.round(
            unknown
                * whole.shareOfKnown(
                    locations
                        .settings(program.locationId)
                        .number(Setting.ADHERENCE_WITHOUT_HISTORY))));
  }

  private static LocalDate earlier(LocalDate one, LocalDate other) {
    return one.isBefore(other) ? one : other;
  }
}
