package clinic.stimshelf.exchange;

import clinic.stimshelf.loans.LoanHistory;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** Signed programs that wait for a unit. */
@ApplicationScoped
class RequestFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> PROGRAM = Column.key("program", Key.PROGRAM).required();
  private static final Column<LocalDate> NEEDED_FROM = Column.openDay("needed_from").required();
  private static final Column<Integer> PRIORITY = Column.whole("priority", 1, 3);
  private static final Column<Instant> WAITING_SINCE = Column.happened("waiting_since").required();

  @Inject LoanHistory loans;

  @Override
  public String what() {
    return "requests";
  }

  @Override
  public String title() {
    return "Signed programs that wait for a unit";
  }

  @Override
  public int order() {
    return 260;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, LOCATION, PROGRAM, NEEDED_FROM, PRIORITY, WAITING_SINCE);
  }

  @Override
  public String taken() {
    return "select coalesce(r.ref, k.mark || '-request-' || cast(r.id as varchar(20))) from loan_request r, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    loans.enterRequest(
        row.get(REF),
        row.get(PROGRAM),
        row.get(NEEDED_FROM),
        row.or(PRIORITY, 2),
        row.get(WAITING_SINCE));
  }

  @Override
  public String export() {
    return "select coalesce(r.ref, k.mark || '-request-' || cast(r.id as varchar(20))) as ref, l.code as location,"
        + " coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))) as program, r.needed_from, r.priority, r.waiting_since"
        + " from loan_request r join location l on l.id = r.location_id"
        + " join program p on p.id = r.program_id, exchange_mark k"
        + " where r.location_id in (:locations) and r.open_program_id is not null"
        + " order by r.waiting_since, r.id";
  }
}
