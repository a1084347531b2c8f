package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Duration;
import java.time.Instant;
import java.util.Objects;

/** A time booked for a patient; within it a unit may stimulate. */
@Entity
@Table(name = "appointment")
class Appointment {
  @Id
  @SequenceGenerator(
      name = "appointment_seq",
      sequenceName = "appointment_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "appointment_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "therapist_id")
  Long therapistId;

  @Column(name = "room_id")
  Long roomId;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "starts_at")
  Instant startsAt;

  @Column(name = "ends_at")
  Instant endsAt;

  @Column(name = "treatment_starts_at")
  Instant treatmentStartsAt;

  @Column(name = "treatment_ends_at")
  Instant treatmentEndsAt;

  int channels;

  @Enumerated(EnumType.STRING)
  AppointmentState state;

  String reason;
  String note;

  @Column(name = "arrived_at")
  Instant arrivedAt;

  @Column(name = "completed_at")
  Instant completedAt;

  /** Whether the shelf counts the unit as in use for this treatment. */
  @Column(name = "unit_in_use")
  boolean unitInUse;

  /** Whether the day's plan chose the unit, and so may choose another. */
  @Column(name = "unit_planned")
  boolean unitPlanned;

  /** Whether the patient came without the unit on loan to them. */
  @Column(name = "loaned_forgotten")
  boolean loanedForgotten;

  @Column(name = "booked_at")
  Instant bookedAt;

  /** Number of the last change that calendars must hear of; never sinks. */
  @Column(name = "feed_sequence")
  int feedSequence;

  Span<Instant> span() {
    return Span.of(startsAt, endsAt);
  }

  /** How long its unit is taken: from setting up to the end of the wipe. */
  Span<Instant> unitSpan(Duration setUp, Duration wipe) {
    return Span.of(treatmentStartsAt.minus(setUp), treatmentEndsAt.plus(wipe));
  }

  Facts facts() {
    return new Facts(
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
        state,
        reason);
  }

  /** What the trail keeps of it. */
  record Facts(
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
      String reason) {

    /** Another time or therapist, or cancelled: RFC 5546, 2.1.4, asks for a new SEQUENCE then. */
    boolean calendarsMustHear(Facts before) {
      return !startsAt.equals(before.startsAt)
          || !endsAt.equals(before.endsAt)
          || !Objects.equals(therapistId, before.therapistId)
          || (state == AppointmentState.CANCELLED) != (before.state == AppointmentState.CANCELLED);
    }
  }
}
