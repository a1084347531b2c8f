package clinic.stimshelf.exchange;

import clinic.stimshelf.outcomes.Measure;
import clinic.stimshelf.outcomes.NewOutcome;
import clinic.stimshelf.outcomes.Outcomes;
import clinic.stimshelf.people.Side;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;

/** What therapists measured. */
@ApplicationScoped
class OutcomeNoteFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION);
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<Long> PROGRAM = Column.key("program", Key.PROGRAM);
  private static final Column<Measure> MEASURE = Column.word("measure", Measure.class).required();
  private static final Column<Side> SIDE = Column.word("side", Side.class).required();
  private static final Column<String> MEASURED = Column.text("what", 120).required();
  private static final Column<BigDecimal> INVOLVED =
      Column.number("involved", "0", "10000").required();
  private static final Column<BigDecimal> UNINVOLVED = Column.number("uninvolved", "0", "10000");
  private static final Column<String> NOTE = Column.text("note", 500);
  private static final Column<Instant> HAPPENED_AT = Column.happened("happened_at").required();

  @Inject Outcomes outcomes;

  @Override
  public String what() {
    return "outcome-notes";
  }

  @Override
  public String title() {
    return "Measured outcomes: limb symmetry, girth, force or level reached";
  }

  @Override
  public int order() {
    return 255;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        PATIENT,
        PROGRAM,
        MEASURE,
        SIDE,
        MEASURED,
        INVOLVED,
        UNINVOLVED,
        NOTE,
        HAPPENED_AT);
  }

  @Override
  public String taken() {
    return "select coalesce(o.ref, k.mark || '-outcome-' || cast(o.id as varchar(20))) from outcome_note o, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    outcomes.record(
        new NewOutcome(
            row.get(REF),
            row.get(PATIENT),
            row.get(PROGRAM),
            row.get(MEASURE),
            row.get(SIDE),
            row.get(MEASURED),
            row.get(INVOLVED),
            row.get(UNINVOLVED),
            row.get(NOTE),
            row.get(HAPPENED_AT),
            null));
  }

  @Override
  public String export() {
    return "select coalesce(o.ref, k.mark || '-outcome-' || cast(o.id as varchar(20))) as ref, l.code as location, p.chart_number as patient,"
        + " case when g.id is null then null else coalesce(g.ref, k.mark || '-program-' || cast(g.id as varchar(20))) end as program,"
        + " lower(replace(o.measure, '_', '-')) as measure, lower(o.side) as side, o.what,"
        + " o.involved, o.uninvolved, o.note, o.happened_at from outcome_note o"
        + " join patient p on p.id = o.patient_id join location l on l.id = p.location_id"
        + " left join program g on g.id = o.program_id, exchange_mark k"
        + " where p.location_id in (:locations) and o.voided_at is null"
        + " order by o.happened_at, o.id";
  }
}
