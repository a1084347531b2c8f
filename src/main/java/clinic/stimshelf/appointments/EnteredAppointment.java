package clinic.stimshelf.appointments;

import java.time.Instant;

/**
 * An appointment of a file, past or to come.
 *
 * @param ref the file's own name for it; a known one changes nothing
 * @param state how it stands; one still booked in the past is taken as it is
 * @param reason why it was partial, not done or cancelled, or {@code null}
 */
public record EnteredAppointment(
    String ref,
    Long locationId,
    Long patientId,
    Long therapistId,
    Long roomId,
    Long unitId,
    Instant startsAt,
    Instant endsAt,
    Instant treatmentStartsAt,
    Instant treatmentEndsAt,
    int channels,
    AppointmentState state,
    String reason,
    String note) {

  NewAppointment wanted() {
    return new NewAppointment(
            locationId,
            patientId,
            therapistId,
            roomId,
            unitId,
            startsAt,
            endsAt,
            treatmentStartsAt,
            treatmentEndsAt,
            channels,
            note)
        .complete();
  }
}
