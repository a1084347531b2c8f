package clinic.stimshelf.pads;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.agroal.api.AgroalDataSource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * How long the page takes over 8 pad types, 10 locations and 5 years. It asserts nothing, since a
 * time is the machine's; run it alone with {@code -Dtest=ReorderPageMeasured
 * -Dstimshelf.measure=true} and put what it prints into docs/performance.md.
 */
@QuarkusTest
@EnabledIfSystemProperty(named = "stimshelf.measure", matches = "true")
class ReorderPageMeasured {
  private static final int LOCATIONS = 10;
  private static final int TYPES = 8;
  private static final int DAYS = 5 * 365;
  private static final int CALLS = 21;

  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject ReckonedAhead ahead;
  @Inject AgroalDataSource database;
  @Inject MutableClock clock;

  private long id = 1_000_000_000L;

  @Test
  void measured() throws Exception {
    List<Long> places = new ArrayList<>();
    List<PadTypeView> types = new ArrayList<>();
    for (int n = 0; n < LOCATIONS; n++) {
      places.add(crew.location(Crew.unique("SCALE")));
    }
    for (int n = 0; n < TYPES; n++) {
      types.add(cupboard.type());
    }
    int lines = 0;
    for (PadTypeView type : types) {
      for (Long place : places) {
        Long lot = cupboard.lot(type, place, "S" + place, 500, 300);
        lines += years(type, place, lot);
      }
    }
    Crew.Member member =
        crew.withPassword(Roles.MANAGER, Credential.NONE, places.toArray(Long[]::new));
    Crew.Browser manager = Crew.signIn(member);
    System.out.println(lines + " lines in the ledger");
    for (String page : List.of("/pads", "/pads/all", "/pads/expiry")) {
      long first = time(manager, page);
      for (int n = 0; n < 5; n++) {
        time(manager, page);
      }
      long[] warm = new long[CALLS];
      for (int n = 0; n < CALLS; n++) {
        warm[n] = time(manager, page);
      }
      long[] changed = new long[CALLS];
      for (int n = 0; n < CALLS; n++) {
        stock.drawerTake(
            new DrawerTake(
                null, types.get(0).code(), places.get(0), 1, DrawerReason.TRIAL, null, null, null),
            cupboard.now());
        changed[n] = time(manager, page);
      }
      long[] morning = new long[3];
      for (int n = 0; n < morning.length; n++) {
        clock.advance(Duration.ofDays(1));
        ahead.everywhere();
        manager = Crew.signIn(member);
        morning[n] = time(manager, page);
      }
      System.out.println(
          page
              + ": first "
              + first
              + " ms; nothing changed "
              + middle(warm)
              + " ms; after a take "
              + middle(changed)
              + " ms; first of a day "
              + middle(morning)
              + " ms");
    }
  }

  private static long middle(long[] times) {
    Arrays.sort(times);
    return times[times.length / 2];
  }

  private static long time(Crew.Browser manager, String page) {
    long from = System.nanoTime();
    manager.get().get(page).then().statusCode(200);
    return (System.nanoTime() - from) / 1_000_000;
  }

  private int years(PadTypeView type, Long place, Long lot) throws Exception {
    RandomGenerator chance = RandomGeneratorFactory.of("L64X128MixRandom").create(lot);
    int lines = 0;
    try (Connection connection = database.getConnection();
        PreparedStatement insert =
            connection.prepareStatement(
                "insert into stock_movement (id, lot_id, pad_type_id, location_id, packs, reason,"
                    + " drawer_reason, loan_id, happened_at, recorded_at, staff_name) values (?, ?,"
                    + " ?, ?, ?, ?, ?, ?, ?, ?, 'measured')")) {
      for (int day = 1; day <= DAYS; day++) {
        for (int n = chance.nextInt(3); n > 0; n--) {
          boolean drawer = chance.nextInt(3) == 0;
          Instant at = clock.instant().minusSeconds(day * 86_400L);
          insert.setLong(1, id++);
          insert.setLong(2, lot);
          insert.setLong(3, type.id());
          insert.setLong(4, place);
          insert.setInt(5, -1 - chance.nextInt(2));
          insert.setString(6, drawer ? "DRAWER_TAKE" : "GIVEN");
          insert.setString(7, drawer ? "TRIAL" : null);
          insert.setObject(8, drawer ? null : Long.valueOf(id / 3));
          OffsetDateTime when = at.atOffset(ZoneOffset.UTC);
          insert.setObject(9, when);
          insert.setObject(10, when);
          insert.addBatch();
          lines++;
        }
      }
      insert.executeBatch();
    }
    return lines;
  }
}
