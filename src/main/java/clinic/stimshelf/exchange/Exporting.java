package clinic.stimshelf.exchange;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.CsvSheet;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Tuple;
import jakarta.persistence.TupleElement;
import jakarta.transaction.Transactional;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.sql.Date;
import java.sql.Time;
import java.time.Instant;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hibernate.jpa.HibernateHints;

/** Writes the clinic's rows in the very formats that are read. */
@ApplicationScoped
class Exporting {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ssxxx");

  @Inject Formats formats;
  @Inject Locations locations;
  @Inject EntityManager database;
  @Inject Trail trail;
  @Inject EventTimes times;

  /**
   * Writes every row of one kind.
   *
   * @param mine the locations whose rows are written
   * @return how many rows
   */
  @Transactional
  long write(String what, Collection<Long> mine, OutputStream out) {
    FileFormat format = formats.byName(what);
    Map<String, ZoneId> zones =
        locations.all().stream().collect(Collectors.toMap(LocationView::code, LocationView::zone));
    ZoneId anyZone = zones.values().stream().findFirst().orElse(ZoneId.of("UTC"));
    long[] rows = {0};
    try (CsvSheet sheet = new CsvSheet(out);
        Stream<?> found = query(format, mine)) {
      sheet.line(format.columns().stream().map(Column::name).toList());
      found.forEach(
          row -> {
            Map<String, Object> values = values((Tuple) row);
            Map<String, String> more = format.more(values);
            ZoneId zone = zones.getOrDefault(String.valueOf(values.get("location")), anyZone);
            sheet.line(
                format.columns().stream()
                    .map(
                        column ->
                            more.containsKey(column.name())
                                ? more.get(column.name())
                                : cell(values.get(column.name()), zone))
                    .toList());
            rows[0]++;
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    trail.record(
        Subject.of("export", what), "exported", times.now(), null, Map.of("rows", rows[0]));
    return rows[0];
  }

  private Stream<?> query(FileFormat format, Collection<Long> mine) {
    // Numbers of ours, never text from outside; a list that is empty must still read as a list.
    String ids =
        mine.isEmpty()
            ? "-1"
            : mine.stream().map(String::valueOf).collect(Collectors.joining(", "));
    return database
        .createNativeQuery(format.export().replace(":locations", ids), Tuple.class)
        .setHint(HibernateHints.HINT_FETCH_SIZE, 500)
        .getResultStream();
  }

  private static Map<String, Object> values(Tuple row) {
    Map<String, Object> values = new HashMap<>();
    for (TupleElement<?> element : row.getElements()) {
      values.put(element.getAlias().toLowerCase(Locale.ROOT), row.get(element));
    }
    return values;
  }

  static String cell(Object value, ZoneId zone) {
    if (value == null) {
      return "";
    }
    if (value instanceof Boolean yes) {
      return yes ? "yes" : "no";
    }
    if (value instanceof BigDecimal number) {
      return number.stripTrailingZeros().toPlainString();
    }
    if (value instanceof Instant instant) {
      return moment(instant, zone);
    }
    if (value instanceof OffsetDateTime time) {
      return moment(time.toInstant(), zone);
    }
    if (value instanceof ZonedDateTime time) {
      return moment(time.toInstant(), zone);
    }
    if (value instanceof java.sql.Timestamp time) {
      return moment(time.toInstant(), zone);
    }
    if (value instanceof Date day) {
      return day.toLocalDate().toString();
    }
    if (value instanceof Time time) {
      return Column.write(time.toLocalTime());
    }
    if (value instanceof LocalTime time) {
      return Column.write(time);
    }
    return value.toString();
  }

  private static String moment(Instant instant, ZoneId zone) {
    return MOMENT.format(instant.truncatedTo(ChronoUnit.SECONDS).atZone(zone));
  }
}
