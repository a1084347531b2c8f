package clinic.stimshelf.exchange;

import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.PastScreening;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.people.Side;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Screenings that stand on paper or in another program. */
@ApplicationScoped
class ScreeningFile implements FileFormat {
  private static final Column<String> REF = Column.ref();
  private static final Column<Long> LOCATION = Column.key("location", Key.LOCATION);
  private static final Column<Long> PATIENT = Column.key("patient", Key.PATIENT).required();
  private static final Column<String> MUSCLE = Column.text("muscle", 40).required();
  private static final Column<Side> SIDE = Column.word("side", Side.class).required();
  private static final Column<Long> THERAPIST = Column.key("therapist", Key.STAFF).required();
  private static final Column<Instant> SCREENED_AT = Column.happened("screened_at").required();
  private static final Column<List<String>> YES =
      Column.list(
          "yes",
          "a question's key, for a precaution with the reason it was accepted for, such as"
              + " metal_implant_passive: plate far from the pads",
          text -> text);

  @Inject Screenings screenings;
  @Inject Muscles muscles;

  @Override
  public String what() {
    return "screenings";
  }

  @Override
  public String title() {
    return "Screenings: what was answered with yes; everything else was no";
  }

  @Override
  public int order() {
    return 180;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, LOCATION, PATIENT, MUSCLE, SIDE, THERAPIST, SCREENED_AT, YES);
  }

  @Override
  public String taken() {
    return "select coalesce(s.ref, k.mark || '-screening-' || cast(s.id as varchar(20))) from screening s, exchange_mark k";
  }

  @Override
  public void enter(Row row) {
    Map<String, String> yes = new LinkedHashMap<>();
    for (String answer : row.or(YES, List.of())) {
      int colon = answer.indexOf(':');
      yes.put(
          colon < 0 ? answer : answer.substring(0, colon).strip(),
          colon < 0 ? "" : answer.substring(colon + 1).strip());
    }
    screenings.enter(
        new PastScreening(
            row.get(REF),
            row.get(PATIENT),
            row.get(MUSCLE),
            row.get(SIDE),
            row.get(THERAPIST),
            row.get(SCREENED_AT),
            yes));
  }

  @Override
  public String export() {
    return "select coalesce(s.ref, k.mark || '-screening-' || cast(s.id as varchar(20))) as ref, l.code as location, p.chart_number as patient,"
        + " s.region as muscle, lower(s.side) as side, w.ref as therapist, s.screened_at,"
        + " (select string_agg(a.question || case when a.accepted_reason is null then ''"
        + " else ': ' || a.accepted_reason end, ' | ' order by a.question)"
        + " from screening_answer a where a.screening_id = s.id and a.answer = 'YES') as yes"
        + " from screening s join patient p on p.id = s.patient_id"
        + " join location l on l.id = p.location_id left join staff w on w.id = s.screened_by,"
        + " exchange_mark k where p.location_id in (:locations) order by s.screened_at, s.id";
  }

  /** A screening holds for a region; the file names it by one of its muscles. */
  @Override
  public Map<String, String> more(Map<String, Object> found) {
    return muscles.all().stream()
        .filter(muscle -> muscle.region().equals(found.get("muscle")))
        .findFirst()
        .map(muscle -> Map.of("muscle", muscle.key()))
        .orElse(Map.of());
  }
}
