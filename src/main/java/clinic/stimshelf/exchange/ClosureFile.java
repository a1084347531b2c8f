package clinic.stimshelf.exchange;

import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/** Closed days and half days. */
@ApplicationScoped
class ClosureFile implements FileFormat {
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<LocalDate> ON_DAY = Column.day("on_day").required();
  private static final Column<LocalTime> OPENS = Column.time("opens");
  private static final Column<LocalTime> CLOSES = Column.time("closes");
  private static final Column<String> REASON = Column.text("reason", 200).required();

  @Inject Locations locations;

  @Override
  public String what() {
    return "closures";
  }

  @Override
  public String title() {
    return "Closed days, and half days with their hours";
  }

  @Override
  public int order() {
    return 20;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(LOCATION, ON_DAY, OPENS, CLOSES, REASON);
  }

  @Override
  public String name(Row row) {
    return row.text(LOCATION) + ":" + row.get(ON_DAY);
  }

  @Override
  public String taken() {
    return "select l.code || ':' || cast(c.on_day as varchar(10)) from closure c"
        + " join location l on l.id = c.location_id";
  }

  @Override
  public void enter(Row row) {
    locations.close(
        row.get(LOCATION),
        new ClosureView(row.get(ON_DAY), row.get(OPENS), row.get(CLOSES), row.get(REASON)));
  }

  @Override
  public String export() {
    return "select l.code as location,"
        + " c.on_day, c.opens, c.closes, c.reason from closure c"
        + " join location l on l.id = c.location_id where l.id in (:locations)"
        + " order by l.code, c.on_day";
  }
}
