package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredInspection;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;

/** Inspections that took place. */
@ApplicationScoped
class InspectionFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<Instant> INSPECTED_AT = Column.happened("inspected_at").required();
  private static final Column<Boolean> PASSED = Column.yesNo("passed").required();
  private static final Column<String> DONE_BY = Column.text("done_by", 200);
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "inspections";
  }

  @Override
  public String title() {
    return "Inspections of units";
  }

  @Override
  public int order() {
    return 150;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, UNIT, INSPECTED_AT, PASSED, DONE_BY, NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(i.ref, k.mark || '-inspection-' || cast(i.id as varchar(20))) from inspection i, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    entries.enterInspection(
        new EnteredInspection(
            row.get(REF),
            row.text(UNIT),
            row.get(INSPECTED_AT),
            row.get(PASSED),
            row.get(DONE_BY),
            row.get(NOTE)));
  }

  @Override
  public String export() {
    return "select coalesce(i.ref, k.mark || '-inspection-' || cast(i.id as varchar(20))) as ref, u.tag as unit, i.inspected_at, i.passed, i.done_by,"
        + " i.note from inspection i join unit u on u.id = i.unit_id, exchange_mark k"
        + " where u.location_id in (:locations) order by i.inspected_at, i.id";
  }
}
