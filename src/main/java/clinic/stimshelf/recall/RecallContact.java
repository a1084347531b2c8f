package clinic.stimshelf.recall;

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
import org.hibernate.annotations.Immutable;

/** An attempt to reach somebody about a recall. Written once. */
@Entity
@Immutable
@Table(name = "recall_contact")
class RecallContact {
  @Id
  @SequenceGenerator(
      name = "recall_contact_seq",
      sequenceName = "recall_contact_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "recall_contact_seq")
  Long id;

  @Column(name = "recall_id")
  Long recallId;

  @Column(name = "patient_id")
  Long patientId;

  @Enumerated(EnumType.STRING)
  ReachOutcome outcome;

  @Column(name = "spoke_with")
  String spokeWith;

  /** Number of a registered letter, or what else proves it. */
  String proof;

  String note;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "by_name")
  String byName;

  ReachView view() {
    return new ReachView(
        outcome, spokeWith, proof, note, happenedAt, recordedAt, lateReason, byName);
  }
}
