package clinic.stimshelf.exchange;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.pads.NewPadSet;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadWear;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/** Pads that patients use or have used. */
@ApplicationScoped
class PadSetFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<Long> PROGRAM = Column.key("program", Key.PROGRAM);
  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<Long> LOT = Column.key("lot", Key.PAD_LOT);
  private static final Column<Integer> PADS = Column.whole("pads", 1, 100).required();
  private static final Column<String> PLACEMENT = Column.text("placement", 120);
  private static final Column<LocalDate> OPENED_ON = Column.happenedDay("opened_on").required();
  private static final Column<Integer> USES = Column.whole("uses", 0, 100_000);
  private static final Column<Integer> EXPECTED_USES = Column.whole("expected_uses", 0, 100_000);
  private static final Column<PadOutcome> OUTCOME = Column.word("outcome", PadOutcome.class);
  private static final Column<LocalDate> CLOSED_ON = Column.happenedDay("closed_on");

  @Inject PadSets sets;
  @Inject PadWear wear;
  @Inject EventTimes times;

  @Override
  public String what() {
    return "pad-sets";
  }

  @Override
  public String title() {
    return "Pads in use by patients: uses, and how they ended";
  }

  @Override
  public int order() {
    return 300;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        PATIENT,
        PROGRAM,
        CODE,
        LOT,
        PADS,
        PLACEMENT,
        OPENED_ON,
        USES,
        EXPECTED_USES,
        OUTCOME,
        CLOSED_ON);
  }

  @Override
  public String taken() {
    return "select coalesce(s.ref, k.mark || '-set-' || cast(s.id as varchar(20))) from pad_set s, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    boolean over = row.has(CLOSED_ON);
    sets.enterPadSet(
        row.get(REF),
        new NewPadSet(
            row.get(PATIENT),
            row.get(PROGRAM),
            row.get(LOCATION),
            row.get(CODE),
            row.get(LOT),
            row.get(PADS),
            row.get(PLACEMENT),
            row.get(OPENED_ON)),
        row.or(USES, 0),
        over ? row.or(EXPECTED_USES, 0) : 0,
        over ? row.get(OUTCOME) : null,
        row.get(CLOSED_ON),
        Happened.at(row.get(OPENED_ON).atTime(LocalTime.NOON).atZone(row.zone()).toInstant()));
  }

  @Override
  public void entered() {
    wear.tellWhatFilesChanged(times.now());
  }

  @Override
  public String export() {
    return "select coalesce(s.ref, k.mark || '-set-' || cast(s.id as varchar(20))) as ref, l.code as location, p.chart_number as patient,"
        + " (select coalesce(r.ref, k.mark || '-program-' || cast(r.id as varchar(20))) from program r where r.id = s.program_id) as program,"
        + " t.code, (select t.code || ':' || g.lot_number from pad_lot g where g.id = s.lot_id)"
        + " as lot, s.pads, s.placement, s.opened_on, s.uses, s.expected_uses,"
        + " lower(replace(s.outcome, '_', '-')) as outcome, s.closed_on from pad_set s"
        + " join location l on l.id = s.location_id join patient p on p.id = s.patient_id"
        + " join pad_type t on t.id = s.pad_type_id, exchange_mark k"
        + " where s.location_id in (:locations) order by s.opened_on, s.id";
  }
}
