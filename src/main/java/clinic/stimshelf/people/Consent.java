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

/** A consent given or refused, written once. */
@Entity
@Table(name = "consent")
class Consent {
  @Id
  @SequenceGenerator(name = "consent_seq", sequenceName = "consent_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "consent_seq")
  Long id;

  String ref;

  @Column(name = "patient_id")
  Long patientId;

  @Enumerated(EnumType.STRING)
  ConsentKind kind;

  @Column(name = "program_id")
  Long programId;

  boolean given;

  @Column(name = "text_version")
  String textVersion;

  String language;

  String signer;

  String relation;

  @Enumerated(EnumType.STRING)
  Means means;

  @Column(name = "signed_at")
  Instant signedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "recorded_by")
  Long recordedBy;
}
