package clinic.stimshelf.remind;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.loans.LoanFacts;
import clinic.stimshelf.loans.ReminderDays;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.annotation.PostConstruct;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** Derives when a patient hears from the clinic. */
@Startup
@ApplicationScoped
class Ladder implements ReminderDays {
  @Inject ConfigFiles files;
  @Inject Locations locations;

  private final Map<Long, String> codes = new ConcurrentHashMap<>();
  private LadderFile file;

  @PostConstruct
  void read() {
    file = LadderFile.read(files);
  }

  @Override
  public List<Rung> ladder(LoanFacts loan) {
    List<Rung> rungs = new ArrayList<>();
    for (LadderFile.Step step : steps(loan.locationId())) {
      for (LocalDate anchor : anchors(step.anchor(), loan)) {
        rungs.add(
            new Rung(
                day(step, anchor, loan.open()), anchor, step.key(), step.channel(), step.words()));
      }
    }
    rungs.sort(Comparator.comparing(Rung::day));
    return rungs;
  }

  /** What is said about an appointment, in order of days. */
  List<Rung> appointment(Long locationId, LocalDate on, OpenDays open) {
    return steps(locationId).stream()
        .filter(step -> step.anchor() == LadderFile.Anchor.APPOINTMENT)
        .map(step -> new Rung(day(step, on, open), on, step.key(), step.channel(), step.words()))
        .sorted(Comparator.comparing(Rung::day))
        .toList();
  }

  Optional<LadderFile.Step> step(Long locationId, String key) {
    return steps(locationId).stream().filter(step -> step.key().equals(key)).findFirst();
  }

  List<LadderFile.Step> steps(Long locationId) {
    // A location's code never changes.
    return file.at(codes.computeIfAbsent(locationId, id -> locations.byId(id).code()));
  }

  private static List<LocalDate> anchors(LadderFile.Anchor anchor, LoanFacts loan) {
    return switch (anchor) {
      case CHECK_OUT -> List.of(loan.checkedOutOn());
      case PAD_CHANGE -> loan.padChanges();
      case DUE -> List.of(loan.dueOn());
      case MIDDLE ->
          List.of(
              loan.startsOn()
                  .plusDays(ChronoUnit.DAYS.between(loan.startsOn(), loan.lastSessionOn()) / 2));
      case APPOINTMENT -> List.of();
    };
  }

  /**
   * What comes before or on its anchor must not come too late, so it moves to an earlier open day;
   * what follows moves to a later one. The patient changes pads at home, whatever the clinic does.
   */
  private static LocalDate day(LadderFile.Step step, LocalDate anchor, OpenDays open) {
    LocalDate wished = anchor.plusDays(step.days());
    if (step.anchor() == LadderFile.Anchor.PAD_CHANGE || open.isOpen(wished)) {
      return wished;
    }
    return step.after() ? open.firstOpenOnOrAfter(wished) : open.lastOpenOnOrBefore(wished);
  }
}
