package clinic.stimshelf.program;

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

/** What was decided about the end of one version of a program; the newest counts. */
@Entity
@Table(name = "end_decision")
class EndDecision {
  @Id
  @SequenceGenerator(
      name = "end_decision_seq",
      sequenceName = "end_decision_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "end_decision_seq")
  Long id;

  @Column(name = "program_id")
  Long programId;

  @Column(name = "version_number")
  int versionNumber;

  @Enumerated(EnumType.STRING)
  EndChoice choice;

  String words;

  @Column(name = "decided_at")
  Instant decidedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "decided_by")
  Long decidedBy;
}
