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
import java.time.Instant;
import java.time.LocalDate;

/** What one side of a loan still owes the other. */
@Entity
@Table(name = "loan_owed")
class LoanOwed {
  @Id
  @SequenceGenerator(name = "loan_owed_seq", sequenceName = "loan_owed_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "loan_owed_seq")
  Long id;

  @Column(name = "loan_id")
  Long loanId;

  @Enumerated(EnumType.STRING)
  @Column(name = "owed_by")
  OwedBy owedBy;

  @Enumerated(EnumType.STRING)
  OwedKind what;

  String words;

  @Column(name = "pad_code")
  String padCode;

  Integer packs;

  @Column(name = "kit_item_id")
  Long kitItemId;

  @Column(name = "due_on")
  LocalDate dueOn;

  String reason;

  @Column(name = "settled_at")
  Instant settledAt;

  @Column(name = "settled_how")
  String settledHow;
}
