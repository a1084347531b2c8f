package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;

/** Boards and drawers on which units stand. */
@ApplicationScoped
class StorageSpotFile implements FileFormat {
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<String> NAME = Column.text("name", 80).required();
  private static final Column<Integer> POSITION = Column.whole("position", 1, 999);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "storage-spots";
  }

  @Override
  public String title() {
    return "Storage spots of each location, in the order of the shelf";
  }

  @Override
  public int order() {
    return 110;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(LOCATION, NAME, POSITION);
  }

  @Override
  public String name(Row row) {
    return row.text(LOCATION) + ":" + row.text(NAME);
  }

  @Override
  public String taken() {
    return "select l.code || ':' || s.name from storage_spot s"
        + " join location l on l.id = s.location_id";
  }

  @Override
  public void enter(Row row) {
    entries.enterSpot(row.get(LOCATION), row.get(NAME), row.get(POSITION));
  }

  @Override
  public String export() {
    return "select l.code as location, s.name, s.position from storage_spot s"
        + " join location l on l.id = s.location_id where s.active and l.id in (:locations)"
        + " order by l.code, s.position, s.name";
  }
}
