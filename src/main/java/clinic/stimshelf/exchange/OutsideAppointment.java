package clinic.stimshelf.exchange;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;

/** What another system last told of an appointment, and what became of it here. */
@Entity
@Table(name = "outside_appointment")
class OutsideAppointment {
  @Id
  @SequenceGenerator(
      name = "outside_appointment_seq",
      sequenceName = "outside_appointment_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "outside_appointment_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "outside_key")
  String outsideKey;

  /** {@code null} while none was booked. */
  @Column(name = "appointment_id")
  Long appointmentId;

  String chart;

  @Column(name = "starts_at")
  Instant startsAt;

  Integer minutes;
  String therapist;
  String room;
  Integer channels;
  boolean cancelled;

  /** Why it could not be taken, else {@code null}. */
  String parked;

  @Column(name = "seen_at")
  Instant seenAt;

  OutsideRow row() {
    return new OutsideRow(
        outsideKey, chart, startsAt, minutes, therapist, room, channels, cancelled, null);
  }

  void read(OutsideRow row, Instant now) {
    chart = row.chart();
    startsAt = row.startsAt();
    minutes = row.minutes();
    therapist = row.therapist();
    room = row.room();
    channels = row.channels();
    cancelled = row.cancelled();
    seenAt = now;
  }
}
