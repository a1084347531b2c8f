package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** What was found at one point of the checklist, with the question as it read then. */
@Entity
@Table(name = "inspection_answer")
class InspectionAnswer {
  @Id
  @SequenceGenerator(
      name = "inspection_answer_seq",
      sequenceName = "inspection_answer_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "inspection_answer_seq")
  Long id;

  @Column(name = "inspection_id")
  Long inspectionId;

  String item;
  String question;
  boolean fine;
}
