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
import jakarta.persistence.Version;
import java.time.Instant;

/** What a therapist confirmed about one region and side. */
@Entity
@Table(name = "screening")
class Screening {
  @Id
  @SequenceGenerator(name = "screening_seq", sequenceName = "screening_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "screening_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "patient_id")
  Long patientId;

  String region;

  @Enumerated(EnumType.STRING)
  Side side;

  @Column(name = "screened_by")
  Long screenedBy;

  @Column(name = "screened_at")
  Instant screenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "superseded_at")
  Instant supersededAt;

  @Column(name = "outdated_at")
  Instant outdatedAt;

  @Column(name = "outdated_reason")
  String outdatedReason;
}
