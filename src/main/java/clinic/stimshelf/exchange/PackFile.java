package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.DrawerReason;
import clinic.stimshelf.pads.MovementReason;
import clinic.stimshelf.pads.PadEntries;
import clinic.stimshelf.pads.PastPacks;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;

/** What the files about packs that came or went have in common: they are lines of one ledger. */
abstract class PackFile implements FileFormat {
  static final Column<String> REF = Column.ref();
  static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  static final Column<String> CODE = Column.code("code").required();
  static final Column<String> LOT = Column.text("lot", 60);
  static final Column<LocalDate> EXPIRES_ON = Column.day("expires_on");
  static final Column<String> UDI = Column.text("udi", 400);
  static final Column<Integer> PACKS = Column.whole("packs", 1, 100_000).required();
  static final Column<Instant> HAPPENED_AT = Column.happened("happened_at").required();
  static final Column<String> NOTE = Column.text("note", 300);
  static final Column<DrawerReason> DRAWER_REASON =
      Column.word("drawer_reason", DrawerReason.class);
  static final Column<LocalDate> ORDERED_ON = Column.openDay("ordered_on");
  static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT);

  private static final String REF_SQL =
      "coalesce(m.ref, k.mark || '-m-' || cast(m.id as varchar(20)))";

  /** A line that was taken back by another, and that other, leave no packs behind. */
  private static final String STANDS =
      "m.reverses_id is null"
          + " and not exists (select 1 from stock_movement r where r.reverses_id = m.id)";

  @Inject PadEntries entries;

  /** Condition for the lines of the ledger that this file holds. */
  abstract String lines();

  abstract MovementReason reason(Row row);

  /** Further columns of the export, each with a comma before it. */
  String moreExport() {
    return "";
  }

  @Override
  public String taken() {
    return "select " + REF_SQL + " from stock_movement m, exchange_mark k where " + lines();
  }

  @Override
  public String takenElsewhere() {
    return "select "
        + REF_SQL
        + " from stock_movement m, exchange_mark k where not ("
        + lines()
        + ")";
  }

  @Override
  public void enter(Row row) {
    entries.enterPacks(past(row, null));
  }

  final PastPacks past(Row row, Long loanId) {
    return new PastPacks(
        row.get(REF),
        row.get(CODE),
        row.get(LOT),
        row.get(EXPIRES_ON),
        row.get(UDI),
        row.get(LOCATION),
        row.get(PACKS),
        reason(row),
        row.get(DRAWER_REASON),
        row.get(NOTE),
        loanId,
        row.get(PATIENT),
        row.get(ORDERED_ON),
        row.get(HAPPENED_AT));
  }

  @Override
  public String export() {
    return "select "
        + REF_SQL
        + " as ref, l.code as location, t.code, g.lot_number as lot, g.expires_on, g.udi,"
        + " abs(m.packs) as packs, m.happened_at, m.note"
        + moreExport()
        + " from stock_movement m join location l on l.id = m.location_id"
        + " join pad_lot g on g.id = m.lot_id join pad_type t on t.id = m.pad_type_id"
        + " left join patient p on p.id = m.patient_id"
        + " left join supply_order_line ol on ol.id = m.order_line_id"
        + " left join supply_order o on o.id = ol.order_id, exchange_mark k where m.location_id in"
        + " (:locations) and "
        + STANDS
        + " and "
        + lines()
        + " order by m.happened_at, m.id";
  }
}
