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

/** One confirmed answer; a precaution may have been accepted. */
@Entity
@Table(name = "screening_answer")
class ScreeningAnswer {
  @Id
  @SequenceGenerator(
      name = "screening_answer_seq",
      sequenceName = "screening_answer_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "screening_answer_seq")
  Long id;

  @Column(name = "screening_id")
  Long screeningId;

  String question;

  @Enumerated(EnumType.STRING)
  Answer answer;

  String note;

  @Column(name = "accepted_by")
  Long acceptedBy;

  @Column(name = "accepted_at")
  Instant acceptedAt;

  @Column(name = "accepted_reason")
  String acceptedReason;
}
