package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.MovementReason;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;

/** Packs given to patients, and those that came back sealed. */
@ApplicationScoped
class PacksGivenFile extends PackFile {
  private static final Column<Long> LOAN = Column.key("loan", Key.LOAN);
  private static final Column<Boolean> CAME_BACK = Column.yesNo("came_back");

  @Override
  public String what() {
    return "packs-given";
  }

  @Override
  public String title() {
    return "Packs given to patients, and those that came back sealed";
  }

  @Override
  public int order() {
    return 290;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF, LOCATION, PATIENT.required(), LOAN, CODE, LOT, PACKS, CAME_BACK, HAPPENED_AT, NOTE);
  }

  @Override
  String lines() {
    return "m.reason in ('GIVEN', 'RETURNED_SEALED')";
  }

  @Override
  MovementReason reason(Row row) {
    return row.or(CAME_BACK, false) ? MovementReason.RETURNED_SEALED : MovementReason.GIVEN;
  }

  @Override
  public void enter(Row row) {
    entries.enterPacks(past(row, row.get(LOAN)));
  }

  @Override
  String moreExport() {
    return ", p.chart_number as patient, m.reason = 'RETURNED_SEALED' as came_back,"
        + " (select coalesce(n.ref, k.mark || '-loan-' || cast(n.id as varchar(20)))"
        + " from loan n where n.id = m.loan_id) as loan";
  }
}
