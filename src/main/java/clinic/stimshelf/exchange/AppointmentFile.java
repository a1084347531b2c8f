package clinic.stimshelf.exchange;

import clinic.stimshelf.appointments.AppointmentEntry;
import clinic.stimshelf.appointments.AppointmentState;
import clinic.stimshelf.appointments.EnteredAppointment;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/** Appointments, past and to come. */
@ApplicationScoped
class AppointmentFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION).required();
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<Long> THERAPIST = Column.key("therapist", Key.STAFF);
  private static final Column<Long> ROOM =
      Column.by(
          "room",
          "the name of a room of the location",
          (text, row) -> {
            Keys.Found found = row.keys().find(Key.ROOM, row.text(LOCATION) + "/" + text);
            if (found == null) {
              throw new Column.NotAllowed("The location has no room “" + text + "”.");
            }
            return found.id();
          });
  private static final Column<Long> UNIT = Column.key("unit", Key.UNIT);
  private static final Column<Instant> STARTS_AT = Column.moment("starts_at").required();
  private static final Column<Integer> MINUTES = Column.whole("minutes", 5, 720).required();
  private static final Column<Integer> TREATED_AFTER =
      Column.whole("treatment_after_minutes", 0, 720);
  private static final Column<Integer> TREATED_FOR = Column.whole("treatment_minutes", 1, 720);
  private static final Column<Integer> CHANNELS = Column.whole("channels", 0, 16);
  private static final Column<AppointmentState> STATE =
      Column.word("state", AppointmentState.class).required();
  private static final Column<String> REASON = Column.text("reason", 500);
  private static final Column<String> NOTE = Column.text("note", 500);

  @Inject AppointmentEntry appointments;

  @Override
  public String what() {
    return "appointments";
  }

  @Override
  public String title() {
    return "Appointments, with the minutes in which a unit stimulates";
  }

  @Override
  public int order() {
    return 310;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        REF,
        LOCATION,
        PATIENT,
        THERAPIST,
        ROOM,
        UNIT,
        STARTS_AT,
        MINUTES,
        TREATED_AFTER,
        TREATED_FOR,
        CHANNELS,
        STATE,
        REASON,
        NOTE);
  }

  @Override
  public String taken() {
    return "select coalesce(a.ref, k.mark || '-appointment-' || cast(a.id as varchar(20))) from appointment a, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    Instant starts = row.get(STARTS_AT);
    Instant treated =
        row.has(TREATED_FOR) ? starts.plus(Duration.ofMinutes(row.or(TREATED_AFTER, 0))) : null;
    appointments.enter(
        new EnteredAppointment(
            row.get(REF),
            row.get(LOCATION),
            row.get(PATIENT),
            row.get(THERAPIST),
            row.get(ROOM),
            row.get(UNIT),
            starts,
            starts.plus(Duration.ofMinutes(row.get(MINUTES))),
            treated,
            treated == null ? null : treated.plus(Duration.ofMinutes(row.get(TREATED_FOR))),
            row.or(CHANNELS, 0),
            state(row, starts),
            row.get(REASON),
            row.get(NOTE)));
  }

  @Override
  public void entered() {
    appointments.planUnits();
  }

  /** What a demo tells of an appointment still to come has not happened yet. */
  private static AppointmentState state(Row row, Instant starts) {
    boolean ahead = starts.plus(Duration.ofMinutes(row.get(MINUTES))).isAfter(row.days().now());
    return ahead && DayText.isRelative(row.text(STARTS_AT)) && row.get(STATE).over()
        ? AppointmentState.BOOKED
        : row.get(STATE);
  }

  @Override
  public String export() {
    return "select coalesce(a.ref, k.mark || '-appointment-' || cast(a.id as varchar(20))) as ref, l.code as location, p.chart_number as patient,"
        + " w.ref as therapist, r.name as room, u.tag as unit, a.starts_at,"
        + " cast(extract(epoch from a.ends_at - a.starts_at) / 60 as integer) as minutes,"
        + " cast(extract(epoch from a.treatment_starts_at - a.starts_at) / 60 as integer)"
        + " as treatment_after_minutes,"
        + " cast(extract(epoch from a.treatment_ends_at - a.treatment_starts_at) / 60 as integer)"
        + " as treatment_minutes, a.channels, lower(replace(a.state, '_', '-')) as state, a.reason,"
        + " a.note from appointment a join location l on l.id = a.location_id"
        + " join patient p on p.id = a.patient_id left join staff w on w.id = a.therapist_id"
        + " left join room r on r.id = a.room_id left join unit u on u.id = a.unit_id,"
        + " exchange_mark k where a.location_id in (:locations) order by a.starts_at, a.id";
  }
}
