package clinic.stimshelf.loans;

import java.time.Instant;
import java.time.LocalDate;

/** Something one side still owes, or owed. */
public record OwedView(
    String id,
    OwedBy owedBy,
    OwedKind what,
    String words,
    String code,
    Integer packs,
    LocalDate dueOn,
    String reason,
    Instant settledAt,
    String settledHow) {

  static OwedView of(LoanOwed row) {
    return new OwedView(
        String.valueOf(row.id),
        row.owedBy,
        row.what,
        row.words,
        row.padCode,
        row.packs,
        row.dueOn,
        row.reason,
        row.settledAt,
        row.settledHow);
  }

  public boolean open() {
    return settledAt == null;
  }
}
