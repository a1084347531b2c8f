package clinic.stimshelf.appointments;

import clinic.stimshelf.shelf.UnitView;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;

/**
 * An appointment as the other rooms, pages and scripts see it.
 *
 * @param unit the unit it is treated with, or {@code null}
 * @param unitPlanned whether the day's plan chose the unit
 * @param loaned the unit the patient has at home and brings along, or {@code null}
 * @param forgotten whether the patient came without the unit on loan
 * @param warnings what is unusual about it but allowed
 */
public record AppointmentView(
    Long id,
    Long locationId,
    String location,
    ZoneId zone,
    Long patientId,
    String chartNumber,
    String patientName,
    boolean interpreter,
    Long therapistId,
    String therapist,
    Long roomId,
    String room,
    Instant startsAt,
    Instant endsAt,
    Instant treatmentStartsAt,
    Instant treatmentEndsAt,
    int channels,
    UnitView unit,
    boolean unitPlanned,
    LoanedUnits.Loaned loaned,
    boolean forgotten,
    AppointmentState state,
    String reason,
    String note,
    Instant arrivedAt,
    Instant completedAt,
    List<String> warnings,
    int version) {

  /** What is unusual about it but allowed as one text, or {@code null}. */
  public String warning() {
    return warnings.isEmpty() ? null : String.join(" ", warnings);
  }

  /** Local time at which it begins. */
  public java.time.LocalTime begins() {
    return startsAt.atZone(zone).toLocalTime();
  }

  /** Local time at which it ends. */
  public java.time.LocalTime ends() {
    return endsAt.atZone(zone).toLocalTime();
  }

  /** Local day on which it begins. */
  public java.time.LocalDate day() {
    return startsAt.atZone(zone).toLocalDate();
  }

  /** Whether it needs a unit of the shelf that is not named yet. */
  public boolean lacksUnit() {
    return channels > 0 && unit == null && loaned == null && !state.over();
  }
}
