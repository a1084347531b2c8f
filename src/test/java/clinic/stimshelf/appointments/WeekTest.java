package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;

/**
 * The week and the day ask the database as often for many appointments as for few. Run with {@code
 * -Dstimshelf.measure=true} it also tells how long a week of 600 takes.
 */
@QuarkusTest
class WeekTest {
  private static final ZoneId ZONE = ZoneId.of("America/New_York");
  private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

  @Inject AppointmentRows rows;
  @Inject Locations locations;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  @Inject SessionFactory factory;

  @Test
  void twelveTherapistsAndSixHundredAppointmentsAskNoMoreThanAFew() {
    clock.set(MONDAY.atTime(7, 30).atZone(ZONE).toInstant());
    Long place = crew.location(Crew.unique("Week"));
    locations.addRoom(place, "Gym", 60);
    List<Long> therapists = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      Member one = crew.member(Roles.THERAPIST, Credential.PT, place);
      therapists.add(one.id());
    }
    List<Long> patients = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      patients.add(folk.patient(place));
    }
    Browser desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, place));
    fill(place, therapists, patients, 0, 3);
    open(desk, "/schedule/week", 20);
    long fewOfWeek = asked(desk, "/schedule/week", 20);
    long fewOfDay = asked(desk, "/schedule", 4);
    fill(place, therapists, patients, 4, 119);
    assertThat(asked(desk, "/schedule/week", 600)).isEqualTo(fewOfWeek).isLessThan(50);
    assertThat(asked(desk, "/schedule", 120)).isEqualTo(fewOfDay).isLessThan(70);
    if (Boolean.getBoolean("stimshelf.measure")) {
      measure(desk, "/schedule/week", "/schedule/therapists", "/schedule");
    }
  }

  /** A day's appointments from one number to another, on each day of the week. */
  private void fill(Long place, List<Long> who, List<Long> patients, int from, int to) {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              for (int day = 0; day < 5; day++) {
                for (int i = from; i <= to; i++) {
                  rows.persist(
                      appointment(
                          place,
                          who.get(i % 12),
                          patients.get(i % 60),
                          MONDAY.plusDays(day).atTime(8, 0).atZone(ZONE).toInstant(),
                          i));
                }
              }
            });
  }

  private static Appointment appointment(
      Long place, Long therapist, Long patient, Instant morning, int nth) {
    Appointment row = new Appointment();
    row.locationId = place;
    row.therapistId = therapist;
    row.patientId = patient;
    row.startsAt = morning.plus(Duration.ofMinutes(45L * (nth / 12)));
    row.endsAt = row.startsAt.plus(Duration.ofMinutes(45));
    row.treatmentStartsAt = row.startsAt.plus(Duration.ofMinutes(10));
    row.treatmentEndsAt = row.startsAt.plus(Duration.ofMinutes(30));
    row.channels = 2;
    row.state = AppointmentState.BOOKED;
    row.bookedAt = morning;
    return row;
  }

  private static String open(Browser desk, String page, int appointments) {
    String html =
        desk.get().get(page + "?day=" + MONDAY).then().statusCode(200).extract().asString();
    assertThat(html).contains(appointments + " booked");
    return html;
  }

  private long asked(Browser desk, String page, int appointments) {
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    open(desk, page, appointments);
    long count = statistics.getPrepareStatementCount();
    statistics.setStatisticsEnabled(false);
    return count;
  }

  private static void measure(Browser desk, String... pages) {
    for (String page : pages) {
      List<Long> times = new ArrayList<>();
      for (int i = 0; i < 40; i++) {
        long start = System.nanoTime();
        desk.get().get(page + "?day=" + MONDAY).then().statusCode(200);
        times.add((System.nanoTime() - start) / 1_000_000);
      }
      List<Long> warm = times.subList(20, 40).stream().sorted().toList();
      System.out.println(page + ": median " + warm.get(10) + " ms of " + times);
    }
  }
}
