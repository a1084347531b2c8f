package clinic.stimshelf.outcomes;

import clinic.stimshelf.people.Side;
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
import java.math.BigDecimal;
import java.time.Instant;

/** What was measured once, with both raw values. */
@Entity
@Table(name = "outcome_note")
class OutcomeNote {
  @Id
  @SequenceGenerator(
      name = "outcome_note_seq",
      sequenceName = "outcome_note_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "outcome_note_seq")
  Long id;

  @Version int version;

  String ref;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "program_id")
  Long programId;

  @Enumerated(EnumType.STRING)
  Measure measure;

  @Enumerated(EnumType.STRING)
  Side side;

  String what;

  BigDecimal involved;

  BigDecimal uninvolved;

  String note;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "voided_at")
  Instant voidedAt;

  @Column(name = "void_reason")
  String voidReason;
}
