package clinic.stimshelf.exchange;

import clinic.stimshelf.loans.ChangeKind;
import clinic.stimshelf.loans.LoanHistory;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** Extensions and swaps within loans. */
@ApplicationScoped
class LoanTurnFile implements FileFormat {
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> LOAN = Column.key("loan", Key.LOAN).required();
  private static final Column<String> KIND =
      Column.word("kind", List.of("extension", "swap")).required();
  private static final Column<Instant> HAPPENED_AT = Column.happened("happened_at").required();
  private static final Column<Long> FROM_UNIT = Column.key("from_unit", Key.UNIT);
  private static final Column<LocalDate> FROM_DUE = Column.openDay("from_due");
  private static final Column<String> REASON = Column.text("reason", 500);

  @Inject LoanHistory loans;

  @Override
  public String what() {
    return "loan-turns";
  }

  @Override
  public String title() {
    return "Extensions and swaps: the due day or unit that was before";
  }

  @Override
  public int order() {
    return 280;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(LOCATION, LOAN, KIND, HAPPENED_AT, FROM_UNIT, FROM_DUE, REASON);
  }

  @Override
  public String name(Row row) {
    return row.get(LOAN) + ":" + row.get(KIND) + ":" + row.get(HAPPENED_AT).getEpochSecond();
  }

  @Override
  public String taken() {
    return "select cast(c.loan_id as varchar(20)) || ':' || lower(c.kind) || ':'"
        + " || cast(cast(floor(extract(epoch from c.happened_at)) as bigint) as varchar(20))"
        + " from loan_change c where c.kind in ('EXTENSION', 'SWAP')";
  }

  @Override
  public void enter(Row row) {
    boolean swap = "swap".equals(row.get(KIND));
    if (swap != row.has(FROM_UNIT) || swap == row.has(FROM_DUE)) {
      row.fault(
          swap ? "from_unit" : "from_due",
          "A swap names the unit before, an extension the due day before.");
      return;
    }
    loans.enterTurn(
        row.get(LOAN),
        swap ? ChangeKind.SWAP : ChangeKind.EXTENSION,
        row.get(HAPPENED_AT),
        swap ? row.text(FROM_UNIT) : null,
        row.get(FROM_DUE),
        row.get(REASON));
  }

  @Override
  public String export() {
    return "select l.code as location, coalesce(n.ref, k.mark || '-loan-' || cast(n.id as varchar(20))) as loan, lower(c.kind) as kind,"
        + " c.happened_at, u.tag as from_unit, c.from_due, c.reason from loan_change c"
        + " join loan n on n.id = c.loan_id join location l on l.id = n.location_id"
        + " left join unit u on u.id = c.from_unit_id, exchange_mark k"
        + " where n.location_id in (:locations) and n.state <> 'VOID'"
        + " and ((c.kind = 'EXTENSION' and c.from_due is not null)"
        + " or (c.kind = 'SWAP' and c.from_unit_id is not null)) order by c.happened_at, c.id";
  }
}
