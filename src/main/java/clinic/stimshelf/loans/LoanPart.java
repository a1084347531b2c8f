package clinic.stimshelf.loans;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** A part of the kit as it went out with a loan, and how it came back. */
@Entity
@Table(name = "loan_part")
class LoanPart {
  @Id
  @SequenceGenerator(name = "loan_part_seq", sequenceName = "loan_part_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "loan_part_seq")
  Long id;

  @Column(name = "loan_id")
  Long loanId;

  @Column(name = "kit_item_id")
  Long kitItemId;

  String words;

  boolean essential;

  @Column(name = "went_along")
  boolean wentAlong;

  /** How it came back; {@code null} while it is out. */
  @Enumerated(EnumType.STRING)
  @Column(name = "came_back")
  CameBack cameBack;
}
