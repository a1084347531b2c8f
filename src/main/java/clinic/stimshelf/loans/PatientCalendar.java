package clinic.stimshelf.loans;

import clinic.stimshelf.appointments.CalendarEvents;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.CalendarText;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A patient's appointments and the day on which what they borrowed comes back, as a calendar file
 * without a word of treatment. Whoever calls it has to know that the asker may see it.
 */
@ApplicationScoped
public class PatientCalendar {
  @Inject LoanRows rows;
  @Inject CalendarEvents events;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Trail trail;

  /**
   * The file, in the patient's language where that is English or Spanish.
   *
   * @throws clinic.stimshelf.web.NotFound if there is no such patient
   */
  @Transactional
  public String of(Long patientId) {
    PatientView patient = patients.byId(patientId);
    boolean spanish = "es".equals(patient.language());
    List<CalendarText.Event> all = new ArrayList<>(events.ofPatient(patient));
    List<Loan> open =
        patient.diedOn() != null
            ? List.of()
            : rows.list("patientId = ?1 and state = ?2", patientId, LoanState.OUT);
    Map<String, Instant> changed =
        trail.lastRecorded("loan", open.stream().map(loan -> String.valueOf(loan.id)).toList());
    for (Loan loan : open) {
      all.add(
          returnDay(
              loan,
              changed.getOrDefault(String.valueOf(loan.id), loan.checkedOutAt),
              locations.byId(loan.locationId),
              spanish));
    }
    return CalendarText.of(
        (spanish ? "Citas, " : "Appointments, ") + locations.byId(patient.locationId()).name(),
        all);
  }

  private CalendarText.Event returnDay(
      Loan loan, Instant changedAt, LocationView place, boolean spanish) {
    List<DayHours> hours = locations.hours(place.id(), loan.dueOn);
    String open =
        hours.isEmpty()
            ? null
            : Days.clock(hours.get(0).opens())
                + (spanish ? " a " : " to ")
                + Days.clock(hours.get(hours.size() - 1).closes());
    return new CalendarText.Event(
        CalendarText.uid("loan", loan.id, loan.checkedOutAt),
        loan.version,
        changedAt,
        null,
        null,
        loan.dueOn,
        spanish ? "Día de devolución" : "Return day",
        place.address() == null ? place.name() : place.name() + ", " + place.address(),
        open == null ? null : (spanish ? "Abierto de " : "Open ") + open,
        false);
  }
}
