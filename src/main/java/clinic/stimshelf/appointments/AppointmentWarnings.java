package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/**
 * What is unusual about appointments but allowed: a therapist who is off or has more patients than
 * usual, a plan of care used up or over. As many questions for six hundred as for one.
 */
@ApplicationScoped
class AppointmentWarnings {
  @Inject AppointmentRows rows;
  @Inject TherapistTimes therapists;
  @Inject CarePlans carePlans;
  @Inject Locations locations;

  /** Of those still to come, by appointment. */
  Map<Long, List<String>> of(List<Appointment> found, Map<Long, String> names) {
    Map<Long, List<String>> warnings = new HashMap<>();
    Map<Long, List<Appointment>> open =
        found.stream()
            .filter(row -> !row.state.over())
            .collect(Collectors.groupingBy(row -> row.locationId));
    open.forEach((place, theirs) -> add(place, theirs, names, warnings));
    return warnings;
  }

  private void add(
      Long place,
      List<Appointment> open,
      Map<Long, String> names,
      Map<Long, List<String>> warnings) {
    ZoneId zone = locations.zone(place);
    Instant from = open.stream().map(row -> row.startsAt).min(Instant::compareTo).orElseThrow();
    Instant to = open.stream().map(row -> row.endsAt).max(Instant::compareTo).orElseThrow();
    List<Long> who =
        open.stream().map(row -> row.therapistId).filter(Objects::nonNull).distinct().toList();
    Roster roster =
        therapists.roster(
            who,
            locations.settings(place).whole(Setting.PATIENTS_AT_ONCE),
            LocalDate.ofInstant(from, zone),
            LocalDate.ofInstant(to, zone),
            zone);
    Map<Long, Map<LocalDate, List<Taken>>> others = rows.ofTherapistsByDay(who, from, to, zone);
    for (Appointment row : open) {
      String warning = row.therapistId == null ? null : crowded(row, roster, others, names, zone);
      if (warning != null) {
        warnings.computeIfAbsent(row.id, id -> new ArrayList<>()).add(warning);
      }
    }
    carePlans
        .warnings(open, zone)
        .forEach((id, words) -> warnings.computeIfAbsent(id, key -> new ArrayList<>()).add(words));
  }

  private static String crowded(
      Appointment row,
      Roster roster,
      Map<Long, Map<LocalDate, List<Taken>>> others,
      Map<Long, String> names,
      ZoneId zone) {
    List<Span<Instant>> theirs =
        others
            .getOrDefault(row.therapistId, Map.of())
            .getOrDefault(LocalDate.ofInstant(row.startsAt, zone), List.of())
            .stream()
            .filter(other -> !other.id().equals(row.id))
            .map(Taken::span)
            .toList();
    return roster.warning(row.therapistId, names.get(row.therapistId), row.span(), theirs);
  }
}
