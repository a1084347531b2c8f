package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.MovementReason;
import jakarta.enterprise.context.ApplicationScoped;
import java.math.BigDecimal;
import java.util.List;

/** Packs that suppliers delivered. */
@ApplicationScoped
class DeliveryFile extends PackFile {
  private static final Column<BigDecimal> PRICE = Column.number("price", "0", "99999999");

  @Override
  public String what() {
    return "deliveries";
  }

  @Override
  public String title() {
    return "Packs delivered, with the day they were ordered and the price of a pack";
  }

  @Override
  public int order() {
    return 90;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF, LOCATION, CODE, LOT, EXPIRES_ON, UDI, PACKS, PRICE, ORDERED_ON, HAPPENED_AT, NOTE);
  }

  @Override
  String lines() {
    return "m.reason = 'DELIVERY'";
  }

  @Override
  MovementReason reason(Row row) {
    return MovementReason.DELIVERY;
  }

  @Override
  public void enter(Row row) {
    entries.enterPacks(past(row, null), row.get(PRICE));
  }

  @Override
  String moreExport() {
    return ", o.ordered_on, ol.price";
  }
}
