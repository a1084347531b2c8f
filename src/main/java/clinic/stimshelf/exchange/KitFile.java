package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredPart;
import clinic.stimshelf.shelf.Part;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;

/** Parts of kits. */
@ApplicationScoped
class KitFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<Part> PART = Column.word("part", Part.class).required();
  private static final Column<String> NAME = Column.text("name", 120);
  private static final Column<String> TAG = Column.text("tag", 32);
  private static final Column<Boolean> ESSENTIAL = Column.yesNo("essential");
  private static final Column<Boolean> PRESENT = Column.yesNo("present");

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "kits";
  }

  @Override
  public String title() {
    return "Parts of each kit, with their own tags";
  }

  @Override
  public int order() {
    return 130;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, UNIT, PART, NAME, TAG, ESSENTIAL, PRESENT);
  }

  @Override
  public String taken() {
    return "select coalesce(i.ref, k.mark || '-part-' || cast(i.id as varchar(20))) from kit_item i, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    entries.enterPart(
        new EnteredPart(
            row.get(REF),
            row.text(UNIT),
            row.get(PART).word(),
            row.get(NAME),
            row.get(TAG),
            row.get(ESSENTIAL),
            row.get(PRESENT)));
  }

  @Override
  public String export() {
    return "select coalesce(i.ref, k.mark || '-part-' || cast(i.id as varchar(20))) as ref, u.tag as unit,"
        + " lower(replace(i.part, '_', '-')) as part, i.name, i.tag, i.essential,"
        + " i.state = 'PRESENT' as present from kit_item i join unit u on u.id = i.unit_id,"
        + " exchange_mark k where u.location_id in (:locations) and i.state <> 'REMOVED'"
        + " order by u.tag, i.position, i.id";
  }
}
