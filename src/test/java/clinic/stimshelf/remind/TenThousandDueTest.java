package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.FaultyLine.Manner;
import clinic.stimshelf.testing.PostOffice;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** However many messages are due, they leave at the pace that is set, and nobody waits for them. */
@QuarkusTest
class TenThousandDueTest {
  private static final int MANY = 10_000;

  /** Sixty a minute, in six rounds. */
  private static final int A_ROUND = 10;

  /** Above whatever the sequences give. */
  private static final long FIRST = 7_000_000_000L;

  private static final LocalDate WEDNESDAY = LendingScene.TUESDAY.plusDays(1);

  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject PostOffice office;
  @Inject Postman postman;
  @Inject Plan plan;
  @Inject EntityManager em;
  @Inject SessionFactory factory;

  private LendingScene.Scene scene;

  @Test
  void leave_at_the_pace_and_a_page_answers_while_they_do() throws Exception {
    scene = lending.open();
    many();
    scenes.onlyOf(scene.location());
    lending.at(WEDNESDAY, "09:00");
    assertThat(number("reminder where state = 'WAITING' and due_at <= :now")).isEqualTo(MANY);

    assertThat(postman.round()).isEqualTo(A_ROUND);
    long asked = questionsOfARound();
    assertThat(number("message where state = 'SENT'")).isEqualTo(2 * A_ROUND);
    aPageAnswersAndAChangeIsMadeWhileTheServerCrawls();
    assertThat(number("message where state = 'SENT'")).isEqualTo(3 * A_ROUND);
    assertThat(number("message where state in ('WAITING', 'CLAIMED')"))
        .as("nothing is taken up before its round")
        .isZero();

    leave(3 * A_ROUND + 2 * A_ROUND);
    assertThat(questionsOfARound())
        .as("a round costs the same with twenty waiting as with ten thousand")
        // Numbers of new rows are fetched fifty at a time, in one round or in the next.
        .isCloseTo(asked, within(5L));
    assertThat(postman.round()).isEqualTo(A_ROUND);
    assertThat(postman.round()).isZero();
    assertThat(sentTo(5 * A_ROUND)).as("each once").containsOnly(1);
  }

  private long questionsOfARound() {
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    assertThat(postman.round()).isEqualTo(A_ROUND);
    long asked = statistics.getPrepareStatementCount();
    statistics.setStatisticsEnabled(false);
    return asked;
  }

  private void aPageAnswersAndAChangeIsMadeWhileTheServerCrawls() throws Exception {
    office.line(Manner.CRAWLING);
    ExecutorService node = Executors.newSingleThreadExecutor();
    try {
      Future<Integer> round = node.submit(() -> postman.round());
      while (office.failures() == 0) {
        assertThat(round.isDone()).isFalse();
        Thread.onSpinWait();
      }
      for (String path : List.of("/front-desk", "/messages", "/call-list")) {
        scene.desk().script().get(path).then().statusCode(200);
      }
      // Even the patient whose message is on its way is held by nobody.
      Long claimed = number("message where state = 'CLAIMED'", "max(patient_id)");
      LendingScene.post(
              scene.desk(),
              "/api/appointments/" + claimed + "/cancellation",
              Map.of("reason", "away"))
          .statusCode(200);
      assertThat(round.isDone()).as("the round goes on for minutes at this rate").isFalse();
      office.line(Manner.FINE);
      assertThat(round.get(2, TimeUnit.MINUTES)).isEqualTo(A_ROUND);
    } finally {
      office.line(Manner.FINE);
      node.shutdownNow();
    }
  }

  private List<Integer> sentTo(int first) {
    return IntStream.rangeClosed(1, first)
        .map(i -> office.mailTo("many" + i + "@" + host()).size())
        .boxed()
        .toList();
  }

  private String host() {
    return scene.code() + ".example.net";
  }

  /** Patients with an appointment on Thursday, of which they hear the day before. */
  private void many() {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              change(
                  "insert into patient (id, version, location_id, chart_number, chart_search, name,"
                      + " name_search, birth_date, language, interpreter, reach_by, phone, email,"
                      + " reminders_allowed) select :first + \"X\", 0, :at, :code || '-' || \"X\", :code ||"
                      + " '-' || \"X\", 'Ada Lindqvist', 'ada lindqvist', date '1980-05-17', 'en',"
                      + " false, 'EMAIL', '(555) 030-0100', 'many' || \"X\" || '@' || :host, true from"
                      + " system_range(1, :many)",
                  Map.of("at", scene.location(), "code", scene.code(), "host", host()));
              change(
                  "insert into appointment (id, version, location_id, patient_id, starts_at,"
                      + " ends_at, channels, state, unit_in_use, booked_at) select :first + \"X\", 0,"
                      + " :at, :first + \"X\", :starts, :ends, 1, 'BOOKED', false, :booked from"
                      + " system_range(1, :many)",
                  Map.of(
                      "at",
                      scene.location(),
                      "starts",
                      scenes.instant(WEDNESDAY.plusDays(1), "10:00"),
                      "ends",
                      scenes.instant(WEDNESDAY.plusDays(1), "10:30"),
                      "booked",
                      scenes.instant(LendingScene.TUESDAY, "09:00")));
            });
    for (int from = 1; from <= MANY; from += 500) {
      List<Long> some = LongStream.range(FIRST + from, FIRST + from + 500).boxed().toList();
      QuarkusTransaction.requiringNew().run(() -> plan.sync(some));
    }
  }

  private void change(String sql, Map<String, Object> values) {
    var query = em.createNativeQuery(sql);
    query.setParameter("first", FIRST).setParameter("many", MANY);
    values.forEach(query::setParameter);
    query.executeUpdate();
  }

  /** Takes everybody off whose turn comes after so many. */
  private void leave(int many) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                em.createNativeQuery(
                        "update reminder set state = 'CANCELLED' where patient_id > :last and"
                            + " state = 'WAITING'")
                    .setParameter("last", FIRST + many)
                    .executeUpdate());
  }

  private Long number(String of) {
    return number(of, "count(*)");
  }

  @ActivateRequestContext
  Long number(String of, String what) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              var query =
                  em.createNativeQuery(
                      "select " + what + " from " + of + " and location_id = :at", Long.class);
              query.setParameter("at", scene.location());
              if (of.contains(":now")) {
                query.setParameter("now", scenes.instant(WEDNESDAY, "09:00"));
              }
              return (Long) query.getSingleResult();
            });
  }

  @AfterEach
  void nobodyIsLeft() {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              for (String table : List.of("reminder", "message", "patient_token", "appointment")) {
                em.createNativeQuery("delete from " + table + " where patient_id > :first")
                    .setParameter("first", FIRST)
                    .executeUpdate();
              }
              em.createNativeQuery("delete from patient where id > :first")
                  .setParameter("first", FIRST)
                  .executeUpdate();
            });
  }
}
