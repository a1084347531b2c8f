package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.appointments.PlannedDay.How;
import clinic.stimshelf.appointments.PlannedDay.Line;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.NeededHere;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Which unit serves which treatment, and what becomes of it when the day changes. */
@QuarkusTest
class PlanOfTheDayTest {
  private static final ZoneId ZONE = ZoneId.of("America/New_York");

  /** A Monday. */
  private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

  @Inject Appointments appointments;
  @Inject Visits visits;
  @Inject UnitPlans plans;
  @Inject DayUpsets upsets;
  @Inject NeededHere needed;
  @Inject TherapistTimes therapists;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject ShelfScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;

  @BeforeEach
  void aMonday() {
    clock.set(at(DAY, 7, 0));
    place = crew.location(Crew.unique("Plan"));
  }

  @Test
  void aBookedTreatmentGetsAUnitAndOneNamedByHandIsPlannedAround() {
    UnitView first = unit();
    UnitView second = unit();
    Long planned = book(DAY, 9, 0, null);
    String tag = appointments.byId(planned).unit().tag();
    assertThat(appointments.byId(planned).unitPlanned()).isTrue();
    UnitView taken = tag.equals(first.tag()) ? first : second;
    Long byHand = book(DAY, 9, 0, taken);
    assertThat(appointments.byId(byHand).unit().tag()).isEqualTo(tag);
    assertThat(appointments.byId(byHand).unitPlanned()).isFalse();
    assertThat(appointments.byId(planned).unit().tag()).as("it gave way").isNotEqualTo(tag);
    Long third = book(DAY, 9, 0, null);
    assertThat(appointments.byId(third).lacksUnit()).as("both are taken").isTrue();
    assertThat(plans.of(place, DAY).unserved())
        .extracting(Line::appointmentId)
        .containsExactly(third);
    appointments.cancel(byHand, "Has a cold.", null, null);
    assertThat(appointments.byId(third).unit()).as("what is freed is planned").isNotNull();
  }

  @Test
  void aUnitPlannedForATreatmentThatNoOtherCouldServeIsNotTakenByHand() {
    UnitView only = unit();
    Long planned = book(DAY, 9, 0, null);
    assertThatThrownBy(() -> book(DAY, 9, 15, only))
        .isInstanceOf(InUse.class)
        .hasMessageContaining("no other unit could serve");
    assertThat(appointments.byId(planned).unit().tag()).isEqualTo(only.tag());
  }

  @Test
  void unitsThatAreToChargeToTestOrLentAreNotPlanned() {
    UnitView uncharged = shelf.byTag(scene.newUnit(place, scene.kind(2)));
    scene.pass(uncharged.tag(), scene.now());
    UnitView reserved = unit();
    shelf.hold(reserved.id(), "a course", scene.now());
    Long early = book(DAY, 8, 0, null);
    assertThat(appointments.byId(early).lacksUnit()).isTrue();
    Long late = book(DAY, 9, 0, null);
    assertThat(appointments.byId(late).unit().tag())
        .as("charged within the hour")
        .isEqualTo(uncharged.tag());
    assertThat(plans.of(place, DAY).out())
        .extracting(PlannedDay.OutOfPlan::unitTag)
        .containsExactly(reserved.tag());
    assertThat(plans.of(place, uncharged.nextTestOn().plusDays(1)).out())
        .as("past its safety test")
        .hasSize(2);
  }

  @Test
  void aFailedUnitGoesOutOfServiceAndTheRestOfTheDayIsPlannedAgain() {
    UnitView failing = unit();
    Long running = book(DAY, 8, 0, failing);
    Long later = book(DAY, 10, 0, failing);
    clock.set(at(DAY, 8, 5));
    visits.arrive(running, failing.tag(), null, null);
    Long tomorrow = book(DAY.plusDays(1), 9, 0, null);
    UnitView spare = unit();
    Long upset = upsets.unitFailed(place, failing.tag(), "No output on channel 2.");
    assertThat(shelf.byId(failing.id()).state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    assertThat(upsets.byId(upset).changes())
        .extracting(
            change -> change.appointment().id(), DayUpsets.Change::was, DayUpsets.Change::becomes)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple(running, failing.tag(), spare.tag()),
            org.assertj.core.groups.Tuple.tuple(later, failing.tag(), spare.tag()),
            org.assertj.core.groups.Tuple.tuple(tomorrow, failing.tag(), spare.tag()));
    assertThat(appointments.byId(later).unitPlanned()).isTrue();
    assertThatThrownBy(() -> upsets.unitFailed(place, spare.tag(), " "))
        .isInstanceOf(Refusal.class);
  }

  @Test
  void appointmentsOfATherapistWhoWasCalledOutGoToWhoHasAPlace() {
    Member away = crew.member(Roles.THERAPIST, Credential.PT, place);
    Member there = crew.member(Roles.THERAPIST, Credential.PTA, place);
    therapists.atOnce(there.id(), 1);
    therapists.enter(
        new TherapistTimes.NewTimeOff(
            there.id(),
            OffKind.BREAK,
            DAY,
            null,
            true,
            LocalTime.of(12, 0),
            LocalTime.of(13, 0),
            null));
    Long free = bookWith(away, 9, 0);
    Long crowded = bookWith(away, 10, 0);
    bookWith(there, 10, 15);
    Long lunch = bookWith(away, 12, 15);
    DayUpsets.UpsetView upset = upsets.byId(upsets.calledOut(place, away.id(), DAY, null, null));
    assertThat(appointments.byId(free).therapistId()).isEqualTo(there.id());
    assertThat(upset.changes()).hasSize(3);
    assertThat(upset.open())
        .extracting(change -> change.appointment().id())
        .containsExactly(crowded, lunch);
    assertThat(appointments.byId(crowded).warning()).contains("was called out at that time");
  }

  @Test
  void aUnitCanBeLentUntilTheTreatmentsBookedNeedIt() {
    UnitView one = unit();
    UnitView two = unit();
    LocalDate busy = DAY.plusDays(9);
    book(DAY.plusDays(2), 9, 0, null);
    assertThat(needed.lentUntil(place)).as("the other would do").isEmpty();
    book(busy, 9, 0, null);
    book(busy, 9, 30, null);
    Map<Long, NeededHere.LentUntil> limits = needed.lentUntil(place);
    assertThat(limits).containsOnlyKeys(one.id(), two.id());
    assertThat(limits.get(one.id()).neededOn()).isEqualTo(busy);
    assertThat(limits.get(one.id()).backOn())
        .as("a day to turn around")
        .isEqualTo(busy.minusDays(1));
    assertThat(limits.get(one.id()).allows(busy)).isFalse();
  }

  @Test
  void theHourThatComesTwiceInAutumnIsTwoHours() {
    LocalDate autumn = LocalDate.of(2026, 11, 1);
    clock.set(Instant.parse("2026-10-30T12:00:00Z"));
    unit();
    locations.close(
        place,
        new clinic.stimshelf.location.ClosureView(
            autumn, LocalTime.of(0, 30), LocalTime.of(4, 0), "Night opening"));
    // 1:15 daylight time and 1:15 standard time are an hour apart, so one unit serves both.
    Instant daylight = Instant.parse("2026-11-01T05:15:00Z");
    Long first = appointments.book(wanted(null, daylight, 30, null, 2));
    Long second = appointments.book(wanted(null, daylight.plus(Duration.ofHours(1)), 30, null, 2));
    assertThat(appointments.byId(first).unit()).isEqualTo(appointments.byId(second).unit());
    assertThat(plans.of(place, autumn).lines()).extracting(Line::how).containsOnly(How.PLANNED);
  }

  private UnitView unit() {
    return scene.readyUnit(place, scene.kind(2));
  }

  private Long book(LocalDate day, int hour, int minute, UnitView unit) {
    return appointments.book(wanted(null, at(day, hour, minute), 40, unit, 2));
  }

  private Long bookWith(Member therapist, int hour, int minute) {
    return appointments.book(wanted(therapist.id(), at(DAY, hour, minute), 40, null, 0));
  }

  private NewAppointment wanted(
      Long therapist, Instant start, int minutes, UnitView unit, int channels) {
    return new NewAppointment(
        place,
        folk.patient(place),
        therapist,
        null,
        unit == null ? null : unit.id(),
        start,
        start.plus(Duration.ofMinutes(minutes)),
        null,
        null,
        channels,
        null);
  }

  private static Instant at(LocalDate day, int hour, int minute) {
    return day.atTime(hour, minute).atZone(ZONE).toInstant();
  }
}
