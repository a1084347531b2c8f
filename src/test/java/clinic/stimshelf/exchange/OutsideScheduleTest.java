package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.appointments.AppointmentState;
import clinic.stimshelf.appointments.AppointmentView;
import clinic.stimshelf.appointments.Appointments;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Appointments that another system keeps, told again and again. */
@QuarkusTest
class OutsideScheduleTest {
  private static final LocalDate DAY = LocalDate.of(2026, 3, 4);

  @Inject OutsideSchedule schedule;
  @Inject Appointments appointments;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private String chart;

  @BeforeEach
  void aMorning() {
    clock.set(Instant.parse("2026-03-04T12:00:00Z"));
    place = crew.location(Crew.unique("Out"));
    locations.addRoom(place, "Gym", 2);
    chart = patients.byId(folk.patient(place)).chartNumber();
  }

  @Test
  void theSameFileTwiceBooksOnceThenMovesThenCancels() {
    assertThat(csv("a1,%s,2026-03-04T09:00,45,".formatted(chart)))
        .isEqualTo(new OutsideSchedule.Told(1, 0, 0, 0, 0));
    assertThat(csv("a1,%s,2026-03-04T09:00,45,".formatted(chart)))
        .isEqualTo(new OutsideSchedule.Told(0, 0, 0, 1, 0));
    assertThat(csv("a1,%s,3/4/2026 10:30 AM,45,".formatted(chart)))
        .isEqualTo(new OutsideSchedule.Told(0, 1, 0, 0, 0));
    assertThat(day())
        .singleElement()
        .satisfies(one -> assertThat(one.begins()).hasToString("10:30"));
    assertThat(csv("a1,%s,2026-03-04T10:30,45,cancelled".formatted(chart)))
        .isEqualTo(new OutsideSchedule.Told(0, 0, 1, 0, 0));
    assertThat(day())
        .extracting(AppointmentView::state)
        .containsExactly(AppointmentState.CANCELLED);
  }

  @Test
  void aRowThatDoesNotFitWaitsAndTheOthersGoOn() {
    OutsideSchedule.Told told =
        csv(
            "b1,NOBODY-1,2026-03-04T09:00,45,",
            "b2,%s,2026-03-04T09:00,45,".formatted(chart),
            "b3,%s,2026-03-04T09:15,45,".formatted(chart),
            "b4,%s,yesterday,45,".formatted(chart));
    assertThat(told).isEqualTo(new OutsideSchedule.Told(1, 0, 0, 0, 3));
    assertThat(schedule.parked(place, 10))
        .extracting(OutsideSchedule.Parked::why)
        .anyMatch(why -> why.contains("No patient here has a chart number of “NOBODY-1”"))
        .anyMatch(why -> why.contains("The patient has an appointment from 9:00 AM"))
        .anyMatch(why -> why.contains("“yesterday” cannot be read as starts_at"));
    patients.add(Folk.entry(place, "NOBODY-1", "Nora Bodin", LocalDate.of(1970, 1, 1)));
    Long waiting =
        schedule.parked(place, 10).stream()
            .filter(row -> row.key().equals("b1"))
            .findFirst()
            .orElseThrow()
            .id();
    assertThat(schedule.again(waiting, 0)).isTrue();
    assertThat(day()).hasSize(2);
    assertThat(schedule.waiting(place)).isEqualTo(2);
  }

  @Test
  void whatAWholeFileNoLongerHoldsIsCancelled() {
    String other = patients.byId(folk.patient(place)).chartNumber();
    csv(
        "c1,%s,2026-03-04T09:00,45,".formatted(chart),
        "c2,%s,2026-03-04T11:00,45,".formatted(other));
    csv("c3,%s,2026-03-04T16:00,45,".formatted(chart));
    OutsideSchedule.Told told =
        take(
            "id,chart,starts_at,minutes,state\n"
                + "c1,%s,2026-03-04T09:00,45,\nc3,%s,2026-03-04T16:00,45,\n"
                    .formatted(chart, chart),
            true);
    assertThat(told).isEqualTo(new OutsideSchedule.Told(0, 0, 1, 2, 0));
  }

  /** Folding, escapes, zones, DURATION and RECURRENCE-ID as RFC 5545 has them (3.1, 3.3, 3.8). */
  @Test
  void calendarsAreReadAsTheStandardHasThem() {
    String ics =
        String.join(
            "\r\n",
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:-//Example Corp.//EN",
            "BEGIN:VEVENT",
            "UID:20260304T1@example.com",
            "DTSTART;TZID=America/New_York:20260304T090000",
            "DTEND;TZID=America/New_York:20260304T094500",
            "SUMMARY:Treatment\\, chart (" + chart.substring(0, 1),
            " " + chart.substring(1) + ")",
            "BEGIN:VALARM",
            "TRIGGER:-PT15M",
            "SUMMARY:NOT THIS",
            "END:VALARM",
            "END:VEVENT",
            "BEGIN:VEVENT",
            "UID:20260305T1@example.com",
            "RECURRENCE-ID:20260305T140000Z",
            "DTSTART:20260305T140000Z",
            "DURATION:PT30M",
            "SUMMARY:" + chart,
            "END:VEVENT",
            "BEGIN:VEVENT",
            "UID:rule@example.com",
            "DTSTART:20260306T140000Z",
            "DTEND:20260306T143000Z",
            "RRULE:FREQ=WEEKLY",
            "SUMMARY:" + chart,
            "END:VEVENT",
            "END:VCALENDAR",
            "");
    assertThat(take(ics, false)).isEqualTo(new OutsideSchedule.Told(2, 0, 0, 0, 1));
    assertThat(day())
        .singleElement()
        .satisfies(one -> assertThat(one.begins()).hasToString("09:00"));
    assertThat(schedule.parked(place, 10))
        .singleElement()
        .satisfies(row -> assertThat(row.why()).contains("repeats by a rule"));
    assertThat(take(ics.replace("SUMMARY:" + chart, "STATUS:CANCELLED\r\nSUMMARY:" + chart), false))
        .isEqualTo(new OutsideSchedule.Told(0, 0, 1, 1, 1));
  }

  @Test
  void theFrontDeskBringsAFileInAndSeesWhatWaits() {
    Browser desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, place));
    desk.get()
        .multiPart("csrf", desk.csrf())
        .multiPart(
            "file",
            "week.csv",
            "id,chart,starts_at,minutes\nd1,NOBODY-9,2026-03-04T09:00,45\n"
                .getBytes(StandardCharsets.UTF_8))
        .multiPart("channels", "0")
        .post("/schedule/other-system")
        .then()
        .statusCode(303);
    assertThat(desk.get().get("/schedule/other-system?told=0-0-0-0-1").asString())
        .contains("0 booked, 0 moved, 0 cancelled, 0 as before, 1 parked.")
        .contains("NOBODY-9")
        .contains("Try again");
    assertThatThrownBy(() -> take("name,time\nx,y\n", false))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("must name the columns id, chart, starts_at, minutes");
  }

  private List<AppointmentView> day() {
    return appointments.ofDay(place, DAY);
  }

  private OutsideSchedule.Told csv(String... rows) {
    return take("id,chart,starts_at,minutes,state\n" + String.join("\n", rows) + "\n", false);
  }

  private OutsideSchedule.Told take(String text, boolean whole) {
    return schedule.take(place, "week.csv", text.getBytes(StandardCharsets.UTF_8), 0, whole);
  }
}
