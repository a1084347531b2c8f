package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.NewPadType;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadShape;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.util.List;

/** The kinds of pads that are bought. */
@ApplicationScoped
class PadTypeFile implements FileFormat {
  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<String> NAME = Column.text("name", 120).required();
  private static final Column<PadShape> SHAPE = Column.word("shape", PadShape.class);
  private static final Column<Integer> WIDTH = Column.whole("width_mm", 0, 1000).required();
  private static final Column<Integer> HEIGHT = Column.whole("height_mm", 0, 1000);
  private static final Column<String> CONNECTOR = Column.text("connector", 40).required();
  private static final Column<Integer> PADS_PER_PACK =
      Column.whole("pads_per_pack", 1, 1000).required();
  private static final Column<Integer> SETS_PER_POUCH = Column.whole("sets_per_pouch", 1, 100);
  private static final Column<Integer> RATED_USES = Column.whole("rated_uses", 1, 1000);
  private static final Column<Integer> OPEN_DAYS = Column.whole("open_days", 1, 1000);
  private static final Column<BigDecimal> PRICE = Column.number("price", "0", "99999999");
  private static final Column<String> SUPPLIER = Column.text("supplier", 120);
  private static final Column<Integer> LEAD_DAYS = Column.whole("lead_days", 0, 365);
  private static final Column<Integer> PER_CASE = Column.whole("packs_per_case", 1, 1000);
  private static final Column<Integer> MINIMUM = Column.whole("minimum_order", 0, 100_000);
  private static final Column<BigDecimal> ORDER_COST = Column.number("order_cost", "0", "99999999");
  private static final Column<BigDecimal> HOLDING_COST =
      Column.number("holding_cost", "0", "99999999");
  private static final Column<Integer> SHELF_DAYS = Column.whole("shelf_days", 1, 10_000);
  private static final Column<Boolean> ACTIVE = Column.yesNo("active");

  @Inject PadCatalog catalog;

  @Override
  public String what() {
    return "pad-types";
  }

  @Override
  public String title() {
    return "Pad types with size, packing, life and price";
  }

  @Override
  public int order() {
    return 60;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        CODE,
        NAME,
        SHAPE,
        WIDTH,
        HEIGHT,
        CONNECTOR,
        PADS_PER_PACK,
        SETS_PER_POUCH,
        RATED_USES,
        OPEN_DAYS,
        PRICE,
        SUPPLIER,
        LEAD_DAYS,
        PER_CASE,
        MINIMUM,
        ORDER_COST,
        HOLDING_COST,
        SHELF_DAYS,
        ACTIVE);
  }

  @Override
  public String name(Row row) {
    return row.text(CODE);
  }

  @Override
  public String taken() {
    return "select code from pad_type";
  }

  @Override
  public void enter(Row row) {
    catalog.enterPadType(
        new NewPadType(
            row.get(CODE),
            row.get(CODE),
            row.get(NAME),
            row.get(SHAPE),
            row.get(WIDTH),
            row.get(HEIGHT),
            row.get(CONNECTOR),
            row.get(PADS_PER_PACK),
            row.get(SETS_PER_POUCH),
            row.get(RATED_USES),
            row.get(OPEN_DAYS),
            row.get(PRICE),
            row.get(SUPPLIER),
            row.get(LEAD_DAYS),
            row.get(PER_CASE),
            row.get(MINIMUM),
            row.get(ORDER_COST),
            row.get(HOLDING_COST),
            row.get(SHELF_DAYS)));
    if (!row.or(ACTIVE, true)) {
      catalog.use(row.get(CODE), false);
    }
  }

  @Override
  public String export() {
    return "select code, name, lower(shape) as shape, width_mm, height_mm, connector,"
        + " pads_per_pack, sets_per_pouch, rated_uses, open_days, price, supplier, lead_days,"
        + " packs_per_case, minimum_order, order_cost, holding_cost, shelf_days, active"
        + " from pad_type order by code";
  }
}
