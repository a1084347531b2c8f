package clinic.stimshelf.program;

import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/** Looks at what surrounds a program: the location's days, the patient's appointments, the pads. */
@ApplicationScoped
class Surveys {
  /** How far past the last session an appointment may lie that still matters, in days. */
  private static final int DAYS_AFTER = 90;

  @Inject Locations locations;
  @Inject BookedDays booked;
  @Inject PadFacts padFacts;

  /** What follows from a draft, with the pad types as they are now. */
  Outlook ofDraft(Long patientId, Long locationId, Content content, List<Pause> pauses) {
    return of(patientId, locationId, content, pauses, padFacts.planned(locationId));
  }

  /** What follows from a version, with its pad types as they were when it was written. */
  Outlook ofVersion(Program program, ProgramVersion version) {
    return of(
        program.patientId,
        program.locationId,
        Writing.read(version),
        program.pauses,
        padFacts.asWritten(version));
  }

  private Outlook of(
      Long patientId,
      Long locationId,
      Content content,
      List<Pause> pauses,
      Map<String, PadFact> padTypes) {
    LocationSettings settings = locations.settings(locationId);
    return Outlook.of(
        content,
        new Outlook.Surroundings(
            locations.today(locationId),
            locations.openDays(locationId),
            appointments(patientId, content, pauses),
            settings.whole(Setting.APPOINTMENT_WINDOW_DAYS),
            settings.whole(Setting.SPARE_SETS),
            pauses.stream().map(Pause::span).toList(),
            padTypes));
  }

  private List<LocalDate> appointments(Long patientId, Content content, List<Pause> pauses) {
    Integer weeks = content.dose().whole(DoseField.WEEKS);
    if (patientId == null || content.startsOn() == null || weeks == null) {
      return List.of();
    }
    LocalDate end = content.startsOn().plusWeeks(weeks + 1L);
    for (Pause pause : pauses) {
      end = end.plusDays(pause.toDay.toEpochDay() - pause.fromDay.toEpochDay() + 1);
    }
    return booked.appointmentDays(patientId, content.startsOn(), end.plusDays(DAYS_AFTER));
  }
}
