package clinic.stimshelf.people;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** What a patient, or who acts for them, answered before seeing the therapist. */
@Entity
@Table(name = "intake")
class Intake {
  @Id
  @SequenceGenerator(name = "intake_seq", sequenceName = "intake_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "intake_seq")
  Long id;

  @Column(name = "patient_id")
  Long patientId;

  String region;

  @Enumerated(EnumType.STRING)
  Side side;

  String language;

  @Column(name = "answered_by")
  String answeredBy;

  @Enumerated(EnumType.STRING)
  Means means;

  @Column(name = "answered_at")
  Instant answeredAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "entered_by")
  Long enteredBy;
}
