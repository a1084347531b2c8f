package clinic.stimshelf.exchange;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.exchange.FhirResources.Of;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.sql.Date;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Collection;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hibernate.jpa.HibernateHints;

/**
 * Hands units, loans, supplies and appointments to another system as one FHIR R4 Bundle. It is
 * written row by row, so that ten years fit.
 */
@ApplicationScoped
class FhirHandOver {
  @Inject EntityManager database;
  @Inject ObjectMapper json;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** One kind of resource: which rows, and what becomes of one. */
  private record Part(Of of, String query, Function<Object[], ObjectNode> resource) {}

  private static final Part[] PARTS = {
    new Part(
        Of.LOCATION,
        "select l.id, l.code, l.name from location l where l.id in (:locations) order by l.id",
        row -> FhirResources.location(text(row[1]), text(row[2]))),
    new Part(
        Of.PATIENT,
        "select p.id, p.chart_number, p.name, p.birth_date from patient p where p.location_id in"
            + " (:locations) or p.id in (select n.patient_id from loan n where n.location_id in"
            + " (:locations)) or p.id in (select a.patient_id from appointment a where"
            + " a.location_id in (:locations)) or p.id in (select m.patient_id from stock_movement"
            + " m where m.location_id in (:locations)) order by p.id",
        row -> FhirResources.patient(text(row[1]), text(row[2]), day(row[3]))),
    new Part(
        Of.UNIT,
        "select u.id, u.tag, u.serial, k.name, u.state, u.location_id from unit u join unit_kind k"
            + " on k.id = u.kind_id where u.location_id in (:locations) or u.id in (select"
            + " n.unit_id from loan n where n.location_id in (:locations)) order by u.id",
        row ->
            FhirResources.device(
                text(row[1]), text(row[2]), text(row[3]), text(row[4]), number(row[5]))),
    new Part(
        Of.LOAN,
        "select n.id, n.state, n.patient_id, n.unit_id, n.checked_out_at, n.returned_at, n.due_on"
            + " from loan n where n.location_id in (:locations) order by n.id",
        row ->
            FhirResources.use(
                text(row[1]),
                number(row[2]),
                number(row[3]),
                instant(row[4]),
                instant(row[5]),
                day(row[6]))),
    new Part(
        Of.PACKS,
        "select m.id, m.patient_id, m.packs, t.code, t.name, g.lot_number, m.happened_at,"
            + " m.location_id from stock_movement m join pad_lot g on g.id = m.lot_id join pad_type"
            + " t on t.id = m.pad_type_id where m.location_id in (:locations) and m.patient_id is"
            + " not null and m.packs < 0 and m.reverses_id is null and not exists (select 1 from"
            + " stock_movement r where r.reverses_id = m.id) order by m.id",
        row ->
            FhirResources.supply(
                number(row[1]),
                -((Number) row[2]).intValue(),
                text(row[3]),
                text(row[4]),
                text(row[5]),
                instant(row[6]),
                number(row[7]))),
    new Part(
        Of.APPOINTMENT,
        "select a.id, a.state, a.starts_at, a.ends_at, a.patient_id, s.name, a.location_id from"
            + " appointment a left join staff s on s.id = a.therapist_id where a.location_id in"
            + " (:locations) order by a.id",
        row ->
            FhirResources.appointment(
                text(row[1]),
                instant(row[2]),
                instant(row[3]),
                number(row[4]),
                text(row[5]),
                number(row[6])))
  };

  /**
   * Writes everything of the locations.
   *
   * @return how many resources
   */
  @Transactional
  long write(Collection<Long> mine, OutputStream out) {
    long resources = 0;
    try (JsonGenerator bundle = json.createGenerator(out)) {
      bundle.writeStartObject();
      bundle.writeStringField("resourceType", "Bundle");
      bundle.writeStringField("type", "collection");
      bundle.writeStringField("timestamp", FhirResources.moment(clock.instant()));
      bundle.writeArrayFieldStart("entry");
      for (Part part : PARTS) {
        resources += write(part, mine, bundle);
      }
      bundle.writeEndArray();
      bundle.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    trail.record(
        Subject.of("export", "fhir"), "exported", times.now(), null, Map.of("rows", resources));
    return resources;
  }

  private long write(Part part, Collection<Long> mine, JsonGenerator bundle) throws IOException {
    // Numbers of ours, never text from outside; a list that is empty must still read as a list.
    String ids =
        mine.isEmpty()
            ? "-1"
            : mine.stream().map(String::valueOf).collect(Collectors.joining(", "));
    long written = 0;
    try (Stream<Object[]> rows =
        database
            .createNativeQuery(part.query().replace(":locations", ids), Object[].class)
            .setHint(HibernateHints.HINT_FETCH_SIZE, 500)
            .getResultStream()) {
      for (Object[] row : (Iterable<Object[]>) rows::iterator) {
        bundle.writeStartObject();
        bundle.writeStringField("fullUrl", FhirResources.address(part.of(), row[0]));
        bundle.writeFieldName("resource");
        bundle.writeTree(part.resource().apply(row));
        bundle.writeEndObject();
        written++;
      }
    }
    return written;
  }

  private static String text(Object value) {
    return value == null ? null : value.toString();
  }

  private static Long number(Object value) {
    return value == null ? null : ((Number) value).longValue();
  }

  private static LocalDate day(Object value) {
    return value instanceof Date day ? day.toLocalDate() : (LocalDate) value;
  }

  private static Instant instant(Object value) {
    return value instanceof OffsetDateTime time ? time.toInstant() : (Instant) value;
  }
}
