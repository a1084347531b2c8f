package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.PadEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;

/** Lots with their expiry, and those that are held back. */
@ApplicationScoped
class PadLotFile implements FileFormat {
  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<String> LOT = Column.text("lot", 60).required();
  private static final Column<LocalDate> EXPIRES_ON = Column.day("expires_on").required();
  private static final Column<String> UDI = Column.text("udi", 400);
  private static final Column<Boolean> CONSIGNED = Column.yesNo("consigned");
  private static final Column<String> HELD_BACK = Column.text("held_back", 300);

  @Inject PadEntries entries;

  @Override
  public String what() {
    return "pad-lots";
  }

  @Override
  public String title() {
    return "Lots of pads with expiry, why one is held back, and whether it is the supplier's until used";
  }

  @Override
  public int order() {
    return 70;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(CODE, LOT, EXPIRES_ON, UDI, HELD_BACK, CONSIGNED);
  }

  @Override
  public String name(Row row) {
    return row.text(CODE) + ":" + row.text(LOT);
  }

  @Override
  public String taken() {
    return "select t.code || ':' || l.lot_number from pad_lot l"
        + " join pad_type t on t.id = l.pad_type_id";
  }

  @Override
  public void enter(Row row) {
    entries.enterLot(
        null,
        row.get(CODE),
        row.get(LOT),
        row.get(EXPIRES_ON),
        row.get(UDI),
        row.get(HELD_BACK),
        Boolean.TRUE.equals(row.get(CONSIGNED)));
  }

  @Override
  public String export() {
    return "select t.code, l.lot_number as lot, l.expires_on, l.udi,"
        + " case when l.state = 'FREE' then null else coalesce(l.state_reason, lower(l.state)) end"
        + " as held_back, case when l.consigned then 'yes' else null end as consigned from pad_lot l join pad_type t on t.id = l.pad_type_id"
        + " order by t.code, l.expires_on, l.lot_number";
  }
}
