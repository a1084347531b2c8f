package clinic.stimshelf.exchange;

import clinic.stimshelf.program.LogSource;
import clinic.stimshelf.program.PastPrograms;
import clinic.stimshelf.program.PastSession;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;

/** Sessions at home. */
@ApplicationScoped
class SessionLogFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> PROGRAM = Column.key("program", Key.PROGRAM).required();
  private static final Column<LocalDate> ON_DAY = Column.happenedDay("on_day").required();
  private static final Column<Integer> NUMBER = Column.whole("number", 1, 24);
  private static final Column<clinic.stimshelf.program.Outcome> OUTCOME =
      Column.word("outcome", clinic.stimshelf.program.Outcome.class).required();
  private static final Column<LogSource> SOURCE = Column.word("source", LogSource.class);
  private static final Column<Integer> CONTRACTIONS = Column.whole("contractions", 0, 10_000);
  private static final Column<String> INTENSITY = Column.text("intensity", 120);
  private static final Column<String> PADS = Column.text("pads", 300);
  private static final Column<Boolean> PADS_TROUBLE = Column.yesNo("pads_trouble");
  private static final Column<String> SKIN = Column.text("skin", 300);
  private static final Column<Boolean> SKIN_TROUBLE = Column.yesNo("skin_trouble");
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject PastPrograms programs;

  @Override
  public String what() {
    return "session-logs";
  }

  @Override
  public String title() {
    return "Sessions at home: done, partial or not";
  }

  @Override
  public int order() {
    return 250;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        PROGRAM,
        ON_DAY,
        NUMBER,
        OUTCOME,
        SOURCE,
        CONTRACTIONS,
        INTENSITY,
        PADS,
        PADS_TROUBLE,
        SKIN,
        SKIN_TROUBLE,
        NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(s.ref, k.mark || '-session-' || cast(s.id as varchar(20))) from session_log s, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    programs.enterSession(
        new PastSession(
            row.get(REF),
            row.get(PROGRAM),
            row.get(ON_DAY),
            row.or(NUMBER, 1),
            row.get(OUTCOME),
            row.or(SOURCE, LogSource.DIARY),
            row.get(CONTRACTIONS),
            row.get(INTENSITY),
            row.get(PADS),
            row.get(SKIN),
            row.or(PADS_TROUBLE, false),
            row.or(SKIN_TROUBLE, false),
            row.get(NOTE)));
  }

  @Override
  public String export() {
    return "select coalesce(s.ref, k.mark || '-session-' || cast(s.id as varchar(20))) as ref, coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))) as program, s.on_day,"
        + " s.nth as number, lower(s.outcome) as outcome, lower(s.source) as source,"
        + " s.contractions, s.intensity, s.pads_words as pads, s.pads_trouble, s.skin_words as skin,"
        + " s.skin_trouble, s.note from session_log s join program p on p.id = s.program_id,"
        + " exchange_mark k where p.location_id in (:locations) and s.voided_at is null"
        + " order by s.on_day, s.id";
  }
}
