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

/** An extension, a swap or another turn in a loan. Written once. */
@Entity
@Table(name = "loan_change")
class LoanChange {
  @Id
  @SequenceGenerator(
      name = "loan_change_seq",
      sequenceName = "loan_change_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "loan_change_seq")
  Long id;

  @Column(name = "loan_id")
  Long loanId;

  @Enumerated(EnumType.STRING)
  ChangeKind kind;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "by_name")
  String byName;

  @Column(name = "from_unit_id")
  Long fromUnitId;

  @Column(name = "to_unit_id")
  Long toUnitId;

  @Column(name = "from_due")
  LocalDate fromDue;

  @Column(name = "to_due")
  LocalDate toDue;

  String reason;
}
