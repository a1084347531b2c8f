package clinic.stimshelf.appointments;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Option;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/** Reads and fills the form by which an appointment is booked or moved. */
@ApplicationScoped
class BookingForm {
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Shelf shelf;

  /** What can be chosen at a location. */
  record Choices(List<Option> therapists, List<Option> rooms) {}

  Choices choices(Long locationId) {
    return new Choices(
        staff.therapistsAt(locationId).stream().map(BookingForm::option).toList(),
        locations.rooms(locationId).stream()
            .map(room -> new Option(room.id().toString(), room.name()))
            .toList());
  }

  private static Option option(StaffView therapist) {
    return new Option(
        therapist.id().toString(), therapist.name() + ", " + therapist.credential().word());
  }

  /** Fills the form with an appointment that stands. */
  Form filled(AppointmentView view) {
    Form form =
        Form.empty()
            .prefill("version", view.version())
            .prefill("day", view.day())
            .prefill("time", view.begins())
            .prefill("minutes", Duration.between(view.startsAt(), view.endsAt()).toMinutes())
            .prefill("therapist", view.therapistId())
            .prefill("room", view.roomId())
            .prefill("channels", view.channels())
            .prefill("unit", view.unit() == null || view.unitPlanned() ? null : view.unit().tag())
            .prefill("note", view.note());
    if (view.treatmentStartsAt() != null) {
      form.prefill(
              "treatment-after",
              Duration.between(view.startsAt(), view.treatmentStartsAt()).toMinutes())
          .prefill(
              "treatment-minutes",
              Duration.between(view.treatmentStartsAt(), view.treatmentEndsAt()).toMinutes());
    }
    return form;
  }

  /**
   * @param patientId who it is for; {@code null} if the form names a chart number
   * @return nothing where the form cannot be read; then it says why
   */
  Optional<NewAppointment> read(Form form, Long locationId, Long patientId) {
    Long patient = patientId == null ? patient(form) : patientId;
    LocalDate day = form.day("day", "The day");
    LocalTime time = form.optionalTime("time", "The time");
    if (time == null && form.error("time") == null) {
      form.wrong("time", "The time is missing, such as 14:30.");
    }
    int minutes = form.whole("minutes", "The length in minutes", 5, 480);
    Integer channels =
        form.optionalWhole("channels", "The channels", 0, BookingRules.MOST_CHANNELS);
    Integer after = form.optionalWhole("treatment-after", "Minutes before the treatment", 0, 480);
    Integer treated = form.optionalWhole("treatment-minutes", "Minutes of treatment", 1, 480);
    Long unit = unit(form);
    Long therapist = number(form, "therapist");
    Long room = number(form, "room");
    if (!form.ok()) {
      return Optional.empty();
    }
    Instant start = day.atTime(time).atZone(locations.zone(locationId)).toInstant();
    Instant from = treated == null ? null : plus(start, after == null ? 0 : after);
    return Optional.of(
        new NewAppointment(
            locationId,
            patient,
            therapist,
            room,
            unit,
            start,
            plus(start, minutes),
            from,
            from == null ? null : plus(from, treated),
            channels == null ? 0 : channels,
            form.value("note")));
  }

  private Long patient(Form form) {
    Optional<PatientView> found =
        form.has("chart") ? patients.byChart(form.value("chart")) : Optional.empty();
    if (found.isEmpty()) {
      form.wrong(
          "chart",
          form.has("chart")
              ? "No patient here has this chart number. Look under Patients."
              : "Who comes? Type or scan the chart number.");
    }
    return found.map(PatientView::id).orElse(null);
  }

  private Long unit(Form form) {
    if (!form.has("unit")) {
      return null;
    }
    try {
      return shelf.byTag(form.value("unit")).id();
    } catch (NotFound unknown) {
      form.wrong("unit", unknown.getMessage());
      return null;
    }
  }

  private static Long number(Form form, String name) {
    return form.read(name, Long::valueOf, one -> true, "Choose one of the list.");
  }

  private static Instant plus(Instant start, long minutes) {
    return start.plus(Duration.ofMinutes(minutes));
  }
}
