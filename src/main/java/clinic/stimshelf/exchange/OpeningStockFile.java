package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.MovementReason;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;

/** Packs that were there when the clinic began, or were found or brought over later. */
@ApplicationScoped
class OpeningStockFile extends PackFile {
  @Override
  public String what() {
    return "opening-stock";
  }

  @Override
  public String title() {
    return "Packs in the cupboard at the beginning";
  }

  @Override
  public int order() {
    return 80;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, LOCATION, CODE, LOT, EXPIRES_ON, PACKS, HAPPENED_AT, NOTE);
  }

  @Override
  String lines() {
    return "(m.reason = 'OPENING' or (m.reason in ('COUNT_DIFFERENCE', 'TRANSFER') and m.packs > 0))";
  }

  @Override
  MovementReason reason(Row row) {
    return MovementReason.OPENING;
  }
}
