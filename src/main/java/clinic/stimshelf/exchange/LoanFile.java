package clinic.stimshelf.exchange;

import clinic.stimshelf.loans.LoanHistory;
import clinic.stimshelf.loans.PastLoan;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** Loans, over or running. */
@ApplicationScoped
class LoanFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<Long> PROGRAM = Column.key("program", Key.PROGRAM).required();
  private static final Column<Instant> CHECKED_OUT_AT =
      Column.happened("checked_out_at").required();
  private static final Column<LocalDate> DUE_ON = Column.openDay("due_on").required();
  private static final Column<Instant> RETURNED_AT = Column.happened("returned_at");
  private static final Column<Boolean> MISSING = Column.yesNo("missing");
  private static final Column<Instant> WRITTEN_OFF_AT = Column.happened("written_off_at");
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject LoanHistory loans;
  @Inject EntityManager database;

  @Override
  public String what() {
    return "loans";
  }

  @Override
  public String title() {
    return "Loans with unit, program, due day and return";
  }

  @Override
  public int order() {
    return 270;
  }

  @Override
  public Key key() {
    return Key.LOAN;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        UNIT,
        PROGRAM,
        CHECKED_OUT_AT,
        DUE_ON,
        RETURNED_AT,
        MISSING,
        WRITTEN_OFF_AT,
        NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(n.ref, k.mark || '-loan-' || cast(n.id as varchar(20))) from loan n, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    loans.enter(
        new PastLoan(
            row.get(REF),
            row.text(UNIT),
            row.get(PROGRAM),
            row.get(CHECKED_OUT_AT),
            row.get(DUE_ON),
            row.get(RETURNED_AT),
            row.or(MISSING, false) && !row.has(RETURNED_AT),
            row.get(WRITTEN_OFF_AT),
            row.get(NOTE)));
  }

  /** Sessions come before loans; each is counted with the unit that was there on its day. */
  @Override
  public void entered() {
    database
        .createNativeQuery(
            "update unit_use set sessions = (select nullif(count(*), 0) from loan n join session_log"
                + " s on s.program_id = n.program_id where n.id = unit_use.subject_id and"
                + " s.standing_nth is not null and s.outcome <> 'NOT' and s.source <> 'CLINIC' and"
                + " s.on_day >= cast(unit_use.starts_at as date) and (unit_use.ended_at is null or"
                + " s.on_day <= cast(unit_use.ended_at as date))) where use_kind = 'LOAN' and"
                + " sessions is null")
        .executeUpdate();
  }

  @Override
  public String export() {
    return "select coalesce(n.ref, k.mark || '-loan-' || cast(n.id as varchar(20))) as ref, l.code as location, u.tag as unit,"
        + " coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))) as program, n.checked_out_at, n.due_on, n.returned_at,"
        + " n.state = 'MISSING' as missing, n.written_off_at, n.note from loan n"
        + " join location l on l.id = n.location_id join unit u on u.id = n.unit_id"
        + " join program p on p.id = n.program_id, exchange_mark k"
        + " where n.location_id in (:locations) and n.state <> 'VOID'"
        + " order by n.checked_out_at, n.id";
  }
}
