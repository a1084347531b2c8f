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
import java.time.LocalDate;

/** Somebody named lifted a hold, or a contraindication that can be lifted. */
@Entity
@Table(name = "clearance")
class Clearance {
  @Id
  @SequenceGenerator(name = "clearance_seq", sequenceName = "clearance_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "clearance_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "patient_id")
  Long patientId;

  String question;

  String region;

  @Enumerated(EnumType.STRING)
  Side side;

  @Column(name = "cleared_by")
  String clearedBy;

  @Column(name = "cleared_on")
  LocalDate clearedOn;

  @Column(name = "valid_until")
  LocalDate validUntil;

  String scope;

  @Column(name = "recorded_by")
  Long recordedBy;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "withdrawn_at")
  Instant withdrawnAt;

  @Column(name = "withdrawn_reason")
  String withdrawnReason;
}
