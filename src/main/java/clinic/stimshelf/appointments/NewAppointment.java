package clinic.stimshelf.appointments;

import java.time.Instant;

/**
 * An appointment as wanted.
 *
 * @param therapistId {@code null} for whoever is there
 * @param roomId {@code null} for no room in particular
 * @param unitId the unit to treat with; {@code null} if it is chosen later, or none is needed
 * @param treatmentStartsAt when stimulation begins; {@code null} with channels: the whole time
 * @param channels how many channels the treatment needs; 0 for none
 */
public record NewAppointment(
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
    String note) {

  /** The same with a treatment time where channels are needed and none is given. */
  NewAppointment complete() {
    return channels > 0 && treatmentStartsAt == null && treatmentEndsAt == null
        ? new NewAppointment(
            locationId,
            patientId,
            therapistId,
            roomId,
            unitId,
            startsAt,
            endsAt,
            startsAt,
            endsAt,
            channels,
            note)
        : this;
  }

  /** The same, begun at another time and as long. */
  NewAppointment at(Instant start) {
    long by = java.time.Duration.between(startsAt, start).toNanos();
    return new NewAppointment(
        locationId,
        patientId,
        therapistId,
        roomId,
        unitId,
        start,
        endsAt.plusNanos(by),
        treatmentStartsAt == null ? null : treatmentStartsAt.plusNanos(by),
        treatmentEndsAt == null ? null : treatmentEndsAt.plusNanos(by),
        channels,
        note);
  }

  Taken taking() {
    return new Taken(
        null,
        patientId,
        therapistId,
        roomId,
        unitId,
        startsAt,
        endsAt,
        treatmentStartsAt,
        treatmentEndsAt);
  }
}
