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

/** One answer of a patient. */
@Entity
@Table(name = "intake_answer")
class IntakeAnswer {
  @Id
  @SequenceGenerator(
      name = "intake_answer_seq",
      sequenceName = "intake_answer_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "intake_answer_seq")
  Long id;

  @Column(name = "intake_id")
  Long intakeId;

  String question;

  @Enumerated(EnumType.STRING)
  Answer answer;
}
