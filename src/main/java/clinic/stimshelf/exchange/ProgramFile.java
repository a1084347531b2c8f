package clinic.stimshelf.exchange;

import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.program.DoseEntry;
import clinic.stimshelf.program.FrequencyKind;
import clinic.stimshelf.program.PadLine;
import clinic.stimshelf.program.PastProgram;
import clinic.stimshelf.program.PastPrograms;
import clinic.stimshelf.program.Placement;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Home programs, signed or still drafts. */
@ApplicationScoped
class ProgramFile implements FileFormat {
  private static final Pattern PLACEMENT =
      Pattern.compile("([a-z-]+)\\s+(left|right|both)\\s+([1-8])(?:\\s*:\\s*(.+))?");
  private static final Pattern PAD = Pattern.compile("([A-Za-z0-9._-]{1,32})\\s*:\\s*(\\d{1,3})");

  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<Long> THERAPIST = Column.key("therapist", Key.STAFF).required();
  private static final Column<String> TEMPLATE = Column.text("template", 64);
  private static final Column<BigDecimal> ON = Column.number("on_seconds", "0.1", "600");
  private static final Column<BigDecimal> OFF = Column.number("off_seconds", "0", "3600");
  private static final Column<BigDecimal> RAMP_UP = Column.number("ramp_up_seconds", "0", "60");
  private static final Column<BigDecimal> RAMP_DOWN = Column.number("ramp_down_seconds", "0", "60");
  private static final Column<Boolean> RAMP_INSIDE = Column.yesNo("ramp_inside_on");
  private static final Column<Boolean> DROP_REST = Column.yesNo("drop_last_rest");
  private static final Column<Integer> CONTRACTIONS = Column.whole("contractions", 1, 10_000);
  private static final Column<BigDecimal> MINUTES = Column.number("minutes", "0.1", "720");
  private static final Column<BigDecimal> HERTZ = Column.number("frequency_hz", "0.1", "2500");
  private static final Column<FrequencyKind> HERTZ_OF =
      Column.word("frequency_kind", FrequencyKind.class);
  private static final Column<BigDecimal> WIDTH = Column.number("pulse_width_us", "1", "5000");
  private static final Column<String> INTENSITY = Column.text("intensity", 500);
  private static final Column<BigDecimal> LIMIT = Column.number("limit_ma", "0.1", "200");
  private static final Column<Integer> A_DAY = Column.whole("sessions_per_day", 1, 24).required();
  private static final Column<Integer> DAYS = Column.whole("days_per_week", 1, 7);
  private static final Column<Set<DayOfWeek>> WEEKDAYS =
      Column.by("weekdays", "weekdays such as mon wed fri", (text, row) -> weekdays(text));
  private static final Column<Integer> WEEKS = Column.whole("weeks", 1, 104).required();
  private static final Column<LocalDate> STARTS_ON = Column.day("starts_on").required();
  private static final Column<List<Placement>> PLACEMENTS =
      Column.list(
              "placements",
              "muscle, side and channels, such as quadriceps left 2",
              ProgramFile::placement)
          .required();
  private static final Column<List<PadLine>> PADS =
      Column.list("pads", "pad code and pads per session, such as OV-5090: 4", ProgramFile::pad);
  private static final Column<DueDay.Kind> DUE_KIND = Column.word("due_kind", DueDay.Kind.class);
  private static final Column<LocalDate> DUE_ON = Column.openDay("due_on");
  private static final Column<String> SETTING = Column.text("setting", 500);
  private static final Column<String> CAUTIONS = Column.text("cautions", 2000);
  private static final Column<String> INSTRUCTIONS = Column.text("instructions", 2000);
  private static final Column<Instant> DRAFTED_AT = Column.happened("drafted_at").required();
  private static final Column<Instant> SIGNED_AT = Column.happened("signed_at");
  private static final Column<Instant> FIRST_SESSION_AT = Column.happened("first_session_at");
  private static final Column<Long> SETTING_UNIT = Column.key("setting_unit", Key.UNIT);
  private static final Column<Instant> SETTING_AT = Column.happened("setting_at");
  private static final Column<Instant> STOPPED_AT = Column.happened("stopped_at");
  private static final Column<String> STOP_REASON = Column.text("stop_reason", 500);
  private static final Column<Boolean> ABANDONED = Column.yesNo("abandoned");

  @Inject PastPrograms programs;

  @Override
  public String what() {
    return "programs";
  }

  @Override
  public String title() {
    return "Home programs with dose, placements, pads, signature and due day";
  }

  @Override
  public int order() {
    return 240;
  }

  @Override
  public Key key() {
    return Key.PROGRAM;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        PATIENT,
        THERAPIST,
        TEMPLATE,
        ON,
        OFF,
        RAMP_UP,
        RAMP_DOWN,
        RAMP_INSIDE,
        DROP_REST,
        CONTRACTIONS,
        MINUTES,
        HERTZ,
        HERTZ_OF,
        WIDTH,
        INTENSITY,
        LIMIT,
        A_DAY,
        DAYS,
        WEEKDAYS,
        WEEKS,
        STARTS_ON,
        PLACEMENTS,
        PADS,
        DUE_KIND,
        DUE_ON,
        SETTING,
        CAUTIONS,
        INSTRUCTIONS,
        DRAFTED_AT,
        SIGNED_AT,
        FIRST_SESSION_AT,
        SETTING_UNIT,
        SETTING_AT,
        STOPPED_AT,
        STOP_REASON,
        ABANDONED);
  }

  @Override
  public String taken() {
    return "select coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))) from program p, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    boolean set = row.has(SETTING_UNIT) && row.has(SETTING_AT);
    programs.enterProgram(
        new PastProgram(
            row.get(REF),
            row.get(PATIENT),
            row.get(LOCATION),
            row.get(THERAPIST),
            row.get(TEMPLATE),
            dose(row),
            row.or(WEEKDAYS, Set.of()),
            row.get(STARTS_ON),
            row.get(PLACEMENTS),
            row.or(PADS, List.of()),
            row.get(DUE_KIND),
            row.get(DUE_ON),
            row.get(SETTING),
            row.get(CAUTIONS),
            row.get(INSTRUCTIONS),
            row.get(DRAFTED_AT),
            row.get(SIGNED_AT),
            row.get(FIRST_SESSION_AT),
            set ? row.get(SETTING_UNIT) : null,
            set ? row.text(SETTING_UNIT) : null,
            row.get(SETTING_AT),
            row.get(STOPPED_AT),
            row.get(STOP_REASON),
            row.or(ABANDONED, false)));
  }

  private static DoseEntry dose(Row row) {
    return new DoseEntry(
        row.get(ON),
        row.get(OFF),
        row.get(RAMP_UP),
        row.get(RAMP_DOWN),
        row.get(RAMP_INSIDE),
        row.get(DROP_REST),
        row.get(CONTRACTIONS),
        row.get(MINUTES),
        row.get(HERTZ),
        row.get(HERTZ_OF),
        row.get(WIDTH),
        row.get(INTENSITY),
        row.get(LIMIT),
        row.get(A_DAY),
        row.get(DAYS),
        row.get(WEEKS));
  }

  private static Set<DayOfWeek> weekdays(String text) {
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    for (String word : text.split("[\\s,|]+")) {
      days.add(HoursText.byShortName(word));
    }
    return days;
  }

  private static Placement placement(String text) {
    Matcher placement = PLACEMENT.matcher(text);
    if (!placement.matches()) {
      throw new IllegalArgumentException(text);
    }
    return new Placement(
        placement.group(1),
        Side.of(placement.group(2)),
        Integer.parseInt(placement.group(3)),
        placement.group(4));
  }

  private static PadLine pad(String text) {
    Matcher pad = PAD.matcher(text);
    if (!pad.matches()) {
      throw new IllegalArgumentException(text);
    }
    return new PadLine(pad.group(1), Integer.parseInt(pad.group(2)));
  }

  /** The version in force, or the latest draft where none was signed. */
  @Override
  public String export() {
    return "select coalesce(p.ref, k.mark || '-program-' || cast(p.id as varchar(20))) as ref, l.code as location, c.chart_number as patient,"
        + " w.ref as therapist, v.template_key as template, v.on_seconds, v.off_seconds,"
        + " v.ramp_up_seconds, v.ramp_down_seconds, v.ramp_inside_on, v.drop_last_rest,"
        + " v.contractions, v.minutes, v.frequency_hz, lower(v.frequency_kind) as frequency_kind,"
        + " v.pulse_width_us, v.intensity, v.limit_ma, v.sessions_per_day, v.days_per_week,"
        + " v.weekdays, v.weeks, v.starts_on,"
        + " (select string_agg(a.muscle || ' ' || lower(a.side) || ' ' || cast(a.channels as"
        + " varchar(4)) || coalesce(': ' || a.pads_where, ''), ' | ' order by a.place)"
        + " from program_placement a where a.version_id = v.id) as placements,"
        + " (select string_agg(b.pad_code || ': ' || cast(b.per_session as varchar(4)), ' | '"
        + " order by b.place) from program_pad_line b where b.version_id = v.id) as pads,"
        + " lower(replace(v.due_kind, '_', '-')) as due_kind, v.due_on, v.setting_text as setting,"
        + " v.cautions, v.instructions, v.drafted_at, v.signed_at, p.first_session_at,"
        + " s.unit_tag as setting_unit, s.confirmed_at as setting_at, p.stopped_at, p.stop_reason, p.abandoned"
        + " from program p join program_version v on v.program_id = p.id"
        + " and v.number = coalesce(p.signed_number, p.latest_number)"
        + " join location l on l.id = p.location_id join patient c on c.id = p.patient_id"
        + " join staff w on w.id = p.therapist_id"
        + " left join program_setting s on s.id = (select max(x.id) from program_setting x"
        + " where x.program_id = p.id and x.version_number = v.number), exchange_mark k"
        + " where p.location_id in (:locations) order by v.drafted_at, p.id";
  }
}
