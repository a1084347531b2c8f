package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;

/** An appointment that went from this therapist to another, as it stood with them. */
@Entity
@Table(name = "handed_over")
class HandedOver {
  @Id
  @SequenceGenerator(
      name = "handed_over_seq",
      sequenceName = "handed_over_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "handed_over_seq")
  Long id;

  @Version int version;

  @Column(name = "appointment_id")
  Long appointmentId;

  @Column(name = "therapist_id")
  Long therapistId;

  @Column(name = "starts_at")
  Instant startsAt;

  @Column(name = "ends_at")
  Instant endsAt;

  @Column(name = "feed_sequence")
  int feedSequence;

  @Column(name = "handed_at")
  Instant handedAt;
}
