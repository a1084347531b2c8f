package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredFault;
import clinic.stimshelf.shelf.FaultKind;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;

/** Faults and drops of units. */
@ApplicationScoped
class UnitFaultFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<FaultKind> KIND = Column.word("kind", FaultKind.class);
  private static final Column<Instant> NOTICED_AT = Column.happened("noticed_at").required();
  private static final Column<String> WORDS = Column.text("words", 500).required();
  private static final Column<String> TOLD_BY = Column.text("told_by", 200);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "unit-faults";
  }

  @Override
  public String title() {
    return "Faults and drops of units";
  }

  @Override
  public int order() {
    return 170;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, UNIT, KIND, NOTICED_AT, WORDS, TOLD_BY);
  }

  @Override
  public String taken() {
    return "select coalesce(f.ref, k.mark || '-fault-' || cast(f.id as varchar(20))) from unit_fault f, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    entries.enterFault(
        new EnteredFault(
            row.get(REF),
            row.text(UNIT),
            row.or(KIND, FaultKind.FAULT).word(),
            row.get(NOTICED_AT),
            row.get(WORDS),
            row.get(TOLD_BY)));
  }

  @Override
  public String export() {
    return "select coalesce(f.ref, k.mark || '-fault-' || cast(f.id as varchar(20))) as ref, u.tag as unit,"
        + " lower(replace(f.fault_kind, '_', '-')) as kind, f.noticed_at, f.words, f.told_by"
        + " from unit_fault f join unit u on u.id = f.unit_id, exchange_mark k"
        + " where u.location_id in (:locations) order by f.noticed_at, f.id";
  }
}
