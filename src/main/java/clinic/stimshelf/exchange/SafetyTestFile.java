package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.Entered.EnteredTest;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;

/** Electrical safety tests that took place. */
@ApplicationScoped
class SafetyTestFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT).required();
  private static final Column<LocalDate> TESTED_ON = Column.happenedDay("tested_on").required();
  private static final Column<Boolean> PASSED = Column.yesNo("passed").required();
  private static final Column<LocalDate> NEXT_DUE_ON = Column.day("next_due_on");
  private static final Column<String> TESTER = Column.text("tester", 200);
  private static final Column<String> CERTIFICATE = Column.text("certificate", 120);
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "safety-tests";
  }

  @Override
  public String title() {
    return "Safety tests of units, with the day of the next";
  }

  @Override
  public int order() {
    return 160;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, UNIT, TESTED_ON, PASSED, NEXT_DUE_ON, TESTER, CERTIFICATE, NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(t.ref, k.mark || '-test-' || cast(t.id as varchar(20))) from safety_test t, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    entries.enterTest(
        new EnteredTest(
            row.get(REF),
            row.text(UNIT),
            row.get(TESTED_ON),
            row.get(PASSED),
            row.get(NEXT_DUE_ON),
            row.get(TESTER),
            row.get(CERTIFICATE),
            row.get(NOTE)));
  }

  @Override
  public String export() {
    return "select coalesce(t.ref, k.mark || '-test-' || cast(t.id as varchar(20))) as ref, u.tag as unit, t.tested_on, t.passed, t.next_due_on,"
        + " t.tester, t.certificate, t.note from safety_test t join unit u on u.id = t.unit_id,"
        + " exchange_mark k where u.location_id in (:locations) order by t.tested_on, t.id";
  }
}
