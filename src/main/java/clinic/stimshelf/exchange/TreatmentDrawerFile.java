package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.TreatmentDrawers;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;

/** Drawers by the treatment tables, and up to where they are filled. */
@ApplicationScoped
class TreatmentDrawerFile implements FileFormat {
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<String> DRAWER = Column.text("drawer", 80).required();
  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<Integer> FILL_TO = Column.whole("fill_to", 1, 1_000).required();
  private static final Column<Integer> PACKS = Column.whole("packs", 0, 100_000);

  @Inject TreatmentDrawers drawers;

  @Override
  public String what() {
    return "treatment-drawers";
  }

  @Override
  public String title() {
    return "Drawers by the treatment tables: up to how many packs they are filled, and what lies there";
  }

  @Override
  public int order() {
    return 76;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(LOCATION, DRAWER, CODE, FILL_TO, PACKS);
  }

  @Override
  public String name(Row row) {
    return row.text(LOCATION) + ":" + row.text(DRAWER) + ":" + row.text(CODE);
  }

  @Override
  public String taken() {
    return "select l.code || ':' || d.name || ':' || t.code from treatment_drawer d join location l"
        + " on l.id = d.location_id join pad_type t on t.id = d.pad_type_id";
  }

  @Override
  public void enter(Row row) {
    Integer packs = row.get(PACKS);
    drawers.enter(
        row.get(LOCATION),
        row.get(DRAWER),
        row.get(CODE),
        row.get(FILL_TO),
        packs == null ? 0 : packs);
  }

  @Override
  public String export() {
    return "select l.code as location, d.name as drawer, t.code, d.fill_to, d.packs from"
        + " treatment_drawer d join location l on l.id = d.location_id join pad_type t on t.id ="
        + " d.pad_type_id where l.id in (:locations) order by l.code, d.name, t.code";
  }
}
