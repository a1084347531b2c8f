package clinic.stimshelf.recall;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** Why somebody who was not reached is left at that. */
@Entity
@Table(name = "recall_excuse")
class RecallExcuse {
  @Id
  @SequenceGenerator(
      name = "recall_excuse_seq",
      sequenceName = "recall_excuse_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "recall_excuse_seq")
  Long id;

  @Column(name = "recall_id")
  Long recallId;

  @Column(name = "patient_id")
  Long patientId;

  String reason;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "by_name")
  String byName;
}
