package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.MovementReason;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;

/** Packs taken outside of programs. */
@ApplicationScoped
class DrawerTakeFile extends PackFile {
  @Override
  public String what() {
    return "drawer-takes";
  }

  @Override
  public String title() {
    return "Packs taken from the drawer, and what for";
  }

  @Override
  public int order() {
    return 220;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF, LOCATION, CODE, LOT, PACKS, DRAWER_REASON.required(), PATIENT, HAPPENED_AT, NOTE);
  }

  @Override
  String lines() {
    return "m.reason = 'DRAWER_TAKE'";
  }

  @Override
  MovementReason reason(Row row) {
    return MovementReason.DRAWER_TAKE;
  }

  @Override
  String moreExport() {
    return ", lower(replace(m.drawer_reason, '_', '-')) as drawer_reason,"
        + " p.chart_number as patient";
  }
}
