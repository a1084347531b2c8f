package clinic.stimshelf.program;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Programs of which somebody should ask whether they were given up. */
@ApplicationScoped
class GivenUpPrograms {
  @Inject BookedDays visits;
  @Inject Locations locations;

  /**
   * @param lent its loan; {@code null} for none
   */
  record Asked(GivenUp.Why why, LentFor.Lent lent) {}

  /**
   * By program, with a fixed number of questions; one that still waits for a unit is not asked.
   *
   * @param lent what lending knows of these programs
   */
  Map<Long, Asked> of(
      Long locationId,
      LocalDate today,
      Collection<Program> running,
      Map<Long, List<Adherence.Known>> known,
      Map<Long, LentFor.Lent> lent) {
    List<Program> begun =
        running.stream()
            .filter(one -> one.firstSessionAt != null && one.stateOn(today) == ProgramState.SIGNED)
            .toList();
    Map<Long, Asked> found = new HashMap<>();
    if (begun.isEmpty()) {
      return found;
    }
    GivenUp rule = GivenUp.of(locations.settings(locationId));
    ZoneId zone = locations.zone(locationId);
    Map<Long, LocalDate> came =
        visits.lastVisits(
            begun.stream().map(one -> one.patientId).distinct().toList(),
            today.minusDays(rule.days()));
    for (Program one : begun) {
      LentFor.Lent out = lent.get(one.id);
      GivenUp.Why why =
          rule.why(
              known.getOrDefault(one.id, List.of()),
              began(one, zone, today),
              came.get(one.patientId),
              today);
      if (why != null && (out == null || !out.waits())) {
        found.put(one.id, new Asked(why, out));
      }
    }
    return found;
  }

  /** The latest of start, signature, first session and the end of a pause. */
  private static LocalDate began(Program program, ZoneId zone, LocalDate today) {
    ProgramVersion version = program.signed();
    LocalDate began = version.startsOn;
    for (LocalDate day :
        List.of(
            LocalDate.ofInstant(version.signedAt, zone),
            LocalDate.ofInstant(program.firstSessionAt, zone))) {
      began = day.isAfter(began) ? day : began;
    }
    for (Pause pause : program.pauses) {
      if (pause.toDay.isBefore(today) && pause.toDay.isAfter(began)) {
        began = pause.toDay;
      }
    }
    return began;
  }
}
