package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.MutableClock;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.io.ByteArrayOutputStream;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The demo is alive whenever it is loaded. Each load is taken back, so that no other test meets it.
 */
@QuarkusTest
class DemoTest {
  private static final Duration SET_UP = Duration.ofMinutes(5);
  private static final Duration WIPE = Duration.ofMinutes(10);

  @Inject Demo demo;
  @Inject MutableClock clock;
  @Inject EntityManager database;
  @Inject Formats formats;
  @Inject Exporting exporting;
  @Inject Importing importing;
  @Inject Locations locations;

  /** A treatment to come: when, where, how many channels, with which unit if one is named. */
  private record Treatment(Instant from, Instant to, Long place, int channels, Long unit) {}

  private record Unit(Long id, Long place, int channels) {}

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-11-30T13:00:00Z", // a Monday morning before opening
        "2027-03-14T15:00:00Z", // the Sunday on which clocks go forward
        "2027-07-05T16:00:00Z" // a Monday on which Independence Day is observed
      })
  void isAliveWheneverItIsLoaded(String now) {
    clock.set(Instant.parse(now));
    load(this::isAlive);
  }

  /** On the afternoon before Thanksgiving; a load takes long, so both are asked of one. */
  @Test
  void isAliveAndEveryKindOfFileGoesOutAndComesInAgainWithoutAChange() {
    clock.set(Instant.parse("2026-11-25T19:30:00Z"));
    load(
        () -> {
          isAlive();
          List<Long> places =
              List.of(locations.byCode("HARBOR").id(), locations.byCode("MILL").id());
          for (FileFormat format : formats.inOrder()) {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            long rows = exporting.write(format.what(), places, out);
            assertThat(rows).as(format.what()).isPositive();
            Outcome again =
                importing.inTransaction(
                    List.of(
                        new Importing.Task(
                            format, new SourceFile(format.what() + ".csv", out.toByteArray()))),
                    new Importing.Manner(true, false, null),
                    Importing.Progress.NONE);
            assertThat(again.faults()).as(format.what()).isEmpty();
            assertThat(again.files().get(0))
                .isEqualTo(new Brought(format.what(), format.what() + ".csv", rows, 0, rows));
          }
        });
  }

  @ActivateRequestContext
  void load(Runnable look) {
    try {
      QuarkusTransaction.requiringNew()
          .timeout(600)
          .run(
              () -> {
                demo.fill(Importing.Progress.NONE);
                database.flush();
                look.run();
                throw new TakenBack();
              });
    } catch (TakenBack asMeant) {
      // nothing stays
    }
  }

  private static final class TakenBack extends RuntimeException {}

  private void isAlive() {
    assertThat(number("select count(*) from patient where location_id in PLACES")).isEqualTo(120);
    assertThat(number("select count(*) from unit where location_id in PLACES")).isEqualTo(24);
    assertThat(
            number(
                "select count(*) from session_log s join program p on p.id = s.program_id"
                    + " where p.location_id in PLACES"))
        .isGreaterThan(6000);
    assertThat(
            number("select count(*) from loan where state = 'MISSING' and location_id in PLACES"))
        .isEqualTo(1);
    assertThat(number("select count(*) from loan where state = 'OUT' and location_id in PLACES"))
        .isBetween(6L, 12L);
    assertThat(
            number(
                "select count(*) from loan where state = 'OUT' and location_id in PLACES"
                    + " and due_on < date '"
                    + clock.instant().toString().substring(0, 10)
                    + "'"))
        .isBetween(2L, 7L);
    assertThat(
            number(
                "select count(*) from loan_request where open_program_id is not null and location_id in PLACES"))
        .isEqualTo(4);
    assertThat(
            number("select count(*) from program where state = 'DRAFT' and location_id in PLACES"))
        .isEqualTo(3);
    assertThat(
            number(
                "select count(*) from unit where state in ('TO_WIPE', 'TO_INSPECT') and location_id in PLACES"))
        .isEqualTo(2);
    assertThat(
            number(
                "select min(level) from (select sum(packs) over (partition by lot_id, location_id"
                    + " order by happened_at, id) as level from stock_movement"
                    + " where location_id in PLACES) x"))
        .as("packs in the cupboard at any time")
        .isNotNegative();
    everyTreatmentCanBeServed();
  }

  private void everyTreatmentCanBeServed() {
    List<Treatment> treatments = treatments();
    assertThat(treatments).hasSizeGreaterThan(40);
    Map<Long, List<Treatment>> taken = new HashMap<>();
    List<Unit> units = units();
    for (Treatment treatment : treatments) {
      Unit serves =
          units.stream()
              .filter(unit -> unit.place.equals(treatment.place))
              .filter(unit -> treatment.unit == null || unit.id.equals(treatment.unit))
              .filter(unit -> unit.channels >= treatment.channels)
              .filter(unit -> isFree(taken.getOrDefault(unit.id, List.of()), treatment))
              .findFirst()
              .orElse(null);
      assertThat(serves).as("a unit for " + treatment).isNotNull();
      taken.computeIfAbsent(serves.id, id -> new ArrayList<>()).add(treatment);
    }
  }

  private static boolean isFree(List<Treatment> taken, Treatment wanted) {
    return taken.stream()
        .allMatch(
            other ->
                !other.from.minus(SET_UP).isBefore(wanted.to.plus(WIPE))
                    || !wanted.from.minus(SET_UP).isBefore(other.to.plus(WIPE)));
  }

  private List<Treatment> treatments() {
    List<Treatment> found = new ArrayList<>();
    for (Object[] row :
        rows(
            "select treatment_starts_at, treatment_ends_at, location_id, channels, unit_id"
                + " from appointment where state = 'BOOKED' and treatment_starts_at is not null"
                + " and location_id in PLACES order by treatment_starts_at")) {
      Treatment treatment =
          new Treatment(
              instant(row[0]),
              instant(row[1]),
              ((Number) row[2]).longValue(),
              ((Number) row[3]).intValue(),
              row[4] == null ? null : ((Number) row[4]).longValue());
      if (treatment.from.isAfter(clock.instant())
          && treatment.from.isBefore(clock.instant().plus(Duration.ofDays(14)))) {
        found.add(treatment);
      }
    }
    return found;
  }

  private List<Unit> units() {
    List<Unit> found = new ArrayList<>();
    for (Object[] row :
        rows(
            "select u.id, u.location_id, k.channels from unit u join unit_kind k on k.id = u.kind_id"
                + " where u.purpose in ('CLINIC', 'BOTH') and u.state = 'READY'"
                + " and u.location_id in PLACES and u.next_test_on > date '"
                + clock.instant().plus(Duration.ofDays(15)).toString().substring(0, 10)
                + "' order by k.channels, u.id")) {
      found.add(
          new Unit(
              ((Number) row[0]).longValue(),
              ((Number) row[1]).longValue(),
              ((Number) row[2]).intValue()));
    }
    return found;
  }

  private long number(String query) {
    return ((Number) database.createNativeQuery(atPlaces(query)).getSingleResult()).longValue();
  }

  @SuppressWarnings("unchecked")
  private List<Object[]> rows(String query) {
    return database.createNativeQuery(atPlaces(query), Object[].class).getResultList();
  }

  private static String atPlaces(String query) {
    return query.replace("PLACES", "(select id from location where code in ('HARBOR', 'MILL'))");
  }

  private static Instant instant(Object value) {
    return value instanceof Instant instant
        ? instant
        : ((java.time.OffsetDateTime) value).toInstant();
  }
}
