package clinic.stimshelf.exchange;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;

/** What locations have chosen differently from what is proposed. */
@ApplicationScoped
class SettingFile implements FileFormat {
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<String> NAME = Column.text("name", 60).required();
  private static final Column<String> VALUE = Column.text("value", 500).required();

  @Inject Locations locations;

  @Override
  public String what() {
    return "settings";
  }

  @Override
  public String title() {
    return "What a location has chosen in its settings";
  }

  @Override
  public int order() {
    return 30;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(LOCATION, NAME, VALUE);
  }

  @Override
  public String name(Row row) {
    return row.text(LOCATION) + ":" + row.text(NAME);
  }

  @Override
  public String taken() {
    return "select l.code || ':' || s.name from location_setting s"
        + " join location l on l.id = s.location_id";
  }

  @Override
  public void enter(Row row) {
    locations.choose(row.get(LOCATION), Map.of(row.get(NAME), row.get(VALUE)));
  }

  @Override
  public String export() {
    return "select l.code as location, s.name,"
        + " s.setting_value as \"value\" from location_setting s"
        + " join location l on l.id = s.location_id where l.id in (:locations)"
        + " order by l.code, s.name";
  }
}
