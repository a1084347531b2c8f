package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredUnit;
import clinic.stimshelf.shelf.Purpose;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** Units by tag. */
@ApplicationScoped
class UnitFile implements FileFormat {
  private static final Column<String> TAG = Column.text("tag", 32).required();
  private static final Column<String> SERIAL = Column.text("serial", 64).required();
  private static final Column<String> KIND = Column.code("kind").required();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<String> SPOT = Column.text("spot", 80);
  private static final Column<Purpose> PURPOSE = Column.word("purpose", Purpose.class);
  private static final Column<String> STATE =
      Column.word(
          "state",
          List.of("ready", "to-wipe", "to-inspect", "out-of-service", "missing", "retired"));
  private static final Column<String> STATE_REASON = Column.text("state_reason", 500);
  private static final Column<LocalDate> NEXT_TEST_ON = Column.day("next_test_on");
  private static final Column<Instant> CHARGED_AT = Column.happened("charged_at");
  private static final Column<Integer> USE_COUNTER = Column.whole("use_counter", 0, 100_000_000);
  private static final Column<LocalDate> ACQUIRED_ON = Column.day("acquired_on");
  private static final Column<LocalDate> RETIRED_ON = Column.day("retired_on");
  private static final Column<String> OWNER = Column.text("owner", 200);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "units";
  }

  @Override
  public String title() {
    return "Units with serial number, place, state and next safety test";
  }

  @Override
  public int order() {
    return 120;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        TAG,
        SERIAL,
        KIND,
        LOCATION,
        SPOT,
        PURPOSE,
        STATE,
        STATE_REASON,
        NEXT_TEST_ON,
        CHARGED_AT,
        USE_COUNTER,
        ACQUIRED_ON,
        RETIRED_ON,
        OWNER);
  }

  @Override
  public String name(Row row) {
    return row.text(TAG);
  }

  @Override
  public Key key() {
    return Key.UNIT;
  }

  @Override
  public String taken() {
    return "select tag from unit";
  }

  @Override
  public void enter(Row row) {
    entries.enterUnit(
        new EnteredUnit(
            null,
            row.get(TAG),
            row.get(SERIAL),
            row.get(KIND),
            row.get(LOCATION),
            row.get(SPOT),
            row.has(PURPOSE) ? row.get(PURPOSE).word() : null,
            row.get(STATE),
            row.get(STATE_REASON),
            row.get(NEXT_TEST_ON),
            row.get(CHARGED_AT),
            row.get(USE_COUNTER),
            row.get(ACQUIRED_ON),
            row.get(RETIRED_ON),
            row.get(OWNER)));
  }

  @Override
  public String export() {
    return "select u.tag, u.serial, k.code as kind, l.code as location, s.name as spot,"
        + " lower(u.purpose) as purpose,"
        // What is in use, or set aside, becomes so again by the loan or request itself.
        + " case when u.state in ('RESERVED', 'IN_TREATMENT', 'ON_LOAN') or exists"
        + " (select 1 from unit_use x where x.active_unit_id = u.id) then 'ready'"
        + " else lower(replace(u.state, '_', '-')) end as state,"
        + " u.state_reason, u.next_test_on, u.charged_at, u.use_counter, u.acquired_on,"
        + " u.retired_on, u.owner_words as owner from unit u join unit_kind k on k.id = u.kind_id"
        + " join location l on l.id = u.location_id left join storage_spot s on s.id = u.spot_id"
        + " where u.location_id in (:locations) order by u.tag";
  }
}
