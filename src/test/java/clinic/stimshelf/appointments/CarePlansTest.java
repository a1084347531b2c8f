package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Visits used of those authorized and the end of a plan of care warn; they refuse nothing. */
@QuarkusTest
class CarePlansTest {
  private static final LocalDate DAY = LocalDate.of(2026, 3, 4);

  @Inject CarePlans plans;
  @Inject Appointments appointments;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Long patient;

  @BeforeEach
  void aPatientWithTwoVisitsToTheTenth() {
    clock.set(at(DAY, 7));
    place = crew.location(Crew.unique("Care"));
    patient = folk.patient(place);
    plans.enter(
        new CarePlans.NewCarePlan(patient, DAY, LocalDate.of(2026, 3, 10), 2, "Payer, by phone"));
  }

  @Test
  void theVisitBeyondThoseAuthorizedIsBookedAndSaid() {
    Long first = book(DAY, 9);
    Long second = book(DAY.plusDays(1), 9);
    Long third = book(DAY.plusDays(2), 9);
    assertThat(appointments.byId(first).warnings()).isEmpty();
    assertThat(appointments.byId(second).warnings()).isEmpty();
    assertThat(appointments.byId(third).warnings()).containsExactly("Visit 3 of 2 authorized.");
    appointments.cancel(first, "Has a cold.", null, null);
    assertThat(appointments.byId(third).warnings()).as("a cancelled one is not used").isEmpty();
    assertThat(plans.of(patient).get(0).words())
        .isEqualTo("0 of 2 visits used, 2 booked, to 03/10/2026");
  }

  @Test
  void aVisitAfterTheLastDayIsBookedAndSaid() {
    assertThat(appointments.byId(book(LocalDate.of(2026, 3, 11), 9)).warnings())
        .containsExactly("No plan of care covers this day; the last one ends 03/10/2026.");
    assertThat(plans.against(patient, List.of(DAY, LocalDate.of(2026, 3, 11))))
        .containsExactly("1 of them lies outside the plan of care, which ends 03/10/2026.");
    assertThat(plans.against(patient, List.of(DAY, DAY.plusDays(1), DAY.plusDays(2))))
        .containsExactly(
            "With them 3 visits stand against 2 authorized to 03/10/2026: 1 too many.");
  }

  @Test
  void aPlanIsRecordedAndEndedOnItsPage() {
    Browser desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, place));
    assertThat(desk.get().get("/patients/" + patient).asString())
        .contains("0 of 2 visits used, 0 booked, to 03/10/2026")
        .contains("/schedule/run?patient=" + patient);
    assertThat(desk.get().get("/schedule/run?patient=" + patient).asString())
        .contains("Several appointments for");
    String wrong =
        desk.form()
            .formParam("firstDay", "2026-04-10")
            .formParam("lastDay", "2026-04-01")
            .formParam("visits", "0")
            .post("/care-plans/" + patient)
            .then()
            .statusCode(422)
            .extract()
            .asString();
    assertThat(wrong).contains("2026-04-10");
    Long id = plans.of(patient).get(0).id();
    desk.form().post("/care-plans/" + patient + "/" + id + "/end").then().statusCode(303);
    assertThat(plans.of(patient).get(0).ended()).isTrue();
  }

  private Long book(LocalDate day, int hour) {
    return appointments.book(
        new NewAppointment(
            place,
            patient,
            null,
            null,
            null,
            at(day, hour),
            at(day, hour).plus(Duration.ofMinutes(45)),
            null,
            null,
            0,
            null));
  }

  private static Instant at(LocalDate day, int hour) {
    return day.atTime(hour, 0).atZone(ZoneId.of("America/New_York")).toInstant();
  }
}
