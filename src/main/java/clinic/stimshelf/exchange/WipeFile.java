package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredWipe;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;

/** Wipes that took place. */
@ApplicationScoped
class WipeFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<String> PRODUCT = Column.text("product", 64).required();
  private static final Column<Instant> WIPED_AT = Column.happened("wiped_at").required();
  private static final Column<String> DONE_BY = Column.text("done_by", 200);
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "wipes";
  }

  @Override
  public String title() {
    return "Wipes of units";
  }

  @Override
  public int order() {
    return 140;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, UNIT, PRODUCT, WIPED_AT, DONE_BY, NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(w.ref, k.mark || '-wipe-' || cast(w.id as varchar(20))) from wipe w, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    entries.enterWipe(
        new EnteredWipe(
            row.get(REF),
            row.text(UNIT),
            row.get(PRODUCT),
            row.get(WIPED_AT),
            row.get(DONE_BY),
            row.get(NOTE)));
  }

  @Override
  public String export() {
    return "select coalesce(w.ref, k.mark || '-wipe-' || cast(w.id as varchar(20))) as ref, u.tag as unit, w.product, w.wiped_at, w.done_by, w.note"
        + " from wipe w join unit u on u.id = w.unit_id, exchange_mark k"
        + " where u.location_id in (:locations) order by w.wiped_at, w.id";
  }
}
