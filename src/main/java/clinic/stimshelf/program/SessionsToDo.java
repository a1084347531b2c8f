package clinic.stimshelf.program;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** The sessions of a program day by day, as the patient has them before them. */
@ApplicationScoped
public class SessionsToDo {
  @Inject ProgramRows programs;
  @Inject ProgramViews views;
  @Inject SessionLogRows logs;
  @Inject Locations locations;

  /**
   * A session of a day.
   *
   * @param outcome {@code null} while nothing is known of it
   * @param logId the entry, {@code null} with it
   * @param own whether the patient entered it on their page
   */
  public record Session(int nth, Outcome outcome, Long logId, boolean own) {}

  /** A day with its sessions; none where there is nothing to do. */
  public record Day(LocalDate on, List<Session> sessions, boolean newPads) {}

  /**
   * The days from one to another, both included.
   *
   * @throws NotFound if there is no such program
   */
  @Transactional
  public List<Day> between(Long programId, LocalDate from, LocalDate to) {
    Program program = programs.findById(programId);
    if (program == null) {
      throw new NotFound("There is no such program.");
    }
    Planned planned = Planned.of(program, locations.zone(program.locationId));
    Set<LocalDate> pads =
        program.signed() == null
            ? Set.of()
            : new HashSet<>(
                views
                    .signed(program, program.signed(), locations.today(program.locationId))
                    .padChanges());
    Map<LocalDate, Map<Integer, SessionLog>> told =
        logs
            .list(
                "programId = ?1 and onDay >= ?2 and onDay <= ?3 and standingNth is not null",
                programId,
                from,
                to)
            .stream()
            .collect(
                Collectors.groupingBy(
                    log -> log.onDay, Collectors.toMap(log -> log.nth, Function.identity())));
    List<Day> days = new ArrayList<>();
    for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
      List<Session> sessions = new ArrayList<>();
      for (int nth = 1; nth <= planned.on(day); nth++) {
        SessionLog log = told.getOrDefault(day, Map.of()).get(nth);
        sessions.add(
            log == null
                ? new Session(nth, null, null, false)
                : new Session(nth, log.outcome, log.id, log.source == LogSource.PATIENT));
      }
      days.add(new Day(day, sessions, pads.contains(day)));
    }
    return days;
  }
}
