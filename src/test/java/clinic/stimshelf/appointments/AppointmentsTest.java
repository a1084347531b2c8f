package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class AppointmentsTest {
  private static final ZoneId ZONE = ZoneId.of("America/New_York");

  /** A Wednesday; the clinic opens at 8 and closes at 18 o'clock. */
  private static final LocalDate DAY = LocalDate.of(2026, 3, 4);

  @Inject Appointments appointments;
  @Inject AppointmentEntry entry;
  @Inject AppointmentsOfDay ofDay;
  @Inject AppointmentDays days;
  @Inject Visits visits;
  @Inject TherapistTimes therapists;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject ShelfScene scene;
  @Inject Trail trail;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Long gym;
  private Long patient;

  @BeforeEach
  void aLocationWithARoomForTwo() {
    clock.set(at(7, 0));
    place = crew.location(Crew.unique("Appt"));
    locations.addRoom(place, "Gym", 2);
    gym = locations.rooms(place).get(0).id();
    patient = folk.patient(place);
  }

  @Test
  void whatIsBookedStandsInTheDayAndInTheTrail() {
    Long id = book(patient, gym, 9, 0, 45);
    assertThat(appointments.ofDay(place, DAY)).extracting(AppointmentView::id).containsExactly(id);
    AppointmentView view = appointments.byId(id);
    assertThat(view.state()).isEqualTo(AppointmentState.BOOKED);
    assertThat(view.room()).isEqualTo("Gym");
    assertThat(view.begins()).isEqualTo(LocalTime.of(9, 0));
    assertThat(trail.of(Subject.of("appointment", id)))
        .extracting("action")
        .containsExactly("booked");
  }

  @Test
  void aPatientIsNotBookedTwiceAndTheNearestFreeTimesAreNamed() {
    book(patient, gym, 9, 0, 45);
    assertThatThrownBy(() -> book(patient, null, 9, 30, 30))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("from 9:00 AM to 9:45 AM")
        .hasMessageContaining(
            "Free: Wed Mar 4, 9:45 AM; Wed Mar 4, 10:00 AM; Wed Mar 4, 10:15 AM.");
    assertThat(book(patient, null, 9, 45, 30)).isPositive();
  }

  @Test
  void aFullRoomIsTheOthersUseAndSaysWhatIsFree() {
    book(folk.patient(place), gym, 9, 0, 60);
    book(folk.patient(place), gym, 9, 30, 60);
    assertThatThrownBy(() -> book(patient, gym, 9, 0, 60))
        .isInstanceOf(InUse.class)
        .hasMessageContaining("The room is full at that time (2).")
        .hasMessageContaining("Free: Wed Mar 4, 8:30 AM; Wed Mar 4, 8:15 AM; ");
    assertThat(book(patient, gym, 10, 0, 60)).isPositive();
  }

  @Test
  void aUnitTreatsOneAtATimeWithTimeToWipe() {
    UnitView unit = unit(2);
    book(folk.patient(place), null, unit, 9, 0, 30);
    assertThatThrownBy(() -> book(patient, null, unit, 9, 35, 30))
        .isInstanceOf(InUse.class)
        .hasMessageContaining("Unit " + unit.tag() + " is booked for a treatment");
    assertThat(book(patient, null, unit, 9, 40, 30)).isPositive();
    assertThat(days.busy(List.of(unit.id()), at(9, 0), at(9, 10)))
        .singleElement()
        .satisfies(busy -> assertThat(busy.words()).isEqualTo("booked for a treatment"));
  }

  @Test
  void everythingAgainstItIsSaidAtOnce() {
    UnitView unit = unit(2);
    NewAppointment wrong =
        new NewAppointment(
            place, patient, -5L, -6L, unit.id(), at(6, 0), at(6, 30), at(5, 0), at(6, 10), 4, null);
    Refusal refusal = (Refusal) catchThrowable(() -> appointments.book(wrong));
    assertThat(refusal.reasons())
        .extracting("field")
        .contains("therapist", "room", "unit", "treatmentStartsAt");
  }

  @Test
  void isBookedWithinOpenHoursOnly() {
    assertThatThrownBy(() -> book(patient, gym, 17, 45, 30))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("the clinic is open from 8:00 AM to 6:00 PM")
        .hasMessageContaining("Free: Wed Mar 4, 5:30 PM");
    assertThat(book(patient, gym, 17, 30, 30)).isPositive();
    locations.close(place, new ClosureView(DAY.plusDays(1), null, null, "Staff day"));
    assertThatThrownBy(
            () ->
                appointments.book(
                    wanted(patient, gym, null, at(9, 0).plus(Duration.ofDays(1)), 30)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("closed on Thu Mar 5")
        .hasMessageContaining("Free: Fri Mar 6, 9:00 AM");
  }

  @Test
  void nothingIsBookedOnADayThatIsOver() {
    assertThatThrownBy(
            () ->
                appointments.book(
                    wanted(patient, gym, null, at(9, 0).minus(Duration.ofDays(1)), 30)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("before today");
  }

  @Test
  void movingFreesTheOldTimeAndAStaleMoveIsRefused() {
    Long id = book(patient, gym, 9, 0, 30);
    int read = appointments.byId(id).version();
    NewAppointment later = wanted(patient, gym, null, at(9, 15), 30);
    appointments.move(id, read, later);
    assertThat(appointments.byId(id).startsAt()).isEqualTo(at(9, 15));
    assertThat(book(patient, gym, 8, 45, 30)).isPositive();
    assertThatThrownBy(() -> appointments.move(id, read, later)).isInstanceOf(Stale.class);
    assertThatThrownBy(
            () ->
                appointments.move(id, null, wanted(folk.patient(place), gym, null, at(15, 0), 30)))
        .isInstanceOf(Refusal.class);
  }

  @Test
  void cancellingNeedsAReasonAndFreesTheTime() {
    Long id = book(patient, gym, 9, 0, 30);
    assertThatThrownBy(() -> appointments.cancel(id, " ", null, null)).isInstanceOf(Refusal.class);
    appointments.cancel(id, "Patient has a cold.", null, null);
    assertThat(appointments.byId(id).state()).isEqualTo(AppointmentState.CANCELLED);
    assertThat(book(patient, gym, 9, 0, 30)).isPositive();
    assertThatThrownBy(() -> appointments.cancel(id, "Again", null, null))
        .isInstanceOf(Refusal.class);
  }

  @Test
  void aTreatmentTakesItsUnitFromArrivalToCompletionThenItIsToBeWiped() {
    UnitView unit = unit(2);
    Long id = book(patient, gym, unit, 9, 0, 30);
    clock.set(at(8, 58));
    visits.arrive(id, unit.tag(), null, null);
    assertThat(shelf.byId(unit.id()).state()).isEqualTo(UnitState.IN_TREATMENT);
    assertThatThrownBy(() -> appointments.cancel(id, "Left again.", null, null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("The treatment has begun");
    Long other = book(folk.patient(place), gym, 9, 0, 30);
    assertThatThrownBy(() -> visits.arrive(other, unit.tag(), null, null))
        .isInstanceOf(InUse.class);
    assertThat(appointments.byId(other).state())
        .as("nothing is half done")
        .isEqualTo(AppointmentState.BOOKED);
    clock.set(at(9, 30));
    visits.complete(id, new Visits.Completion(AppointmentState.DONE, null, null, null, null));
    assertThat(shelf.byId(unit.id()).state()).isEqualTo(UnitState.TO_WIPE);
    assertThat(appointments.byId(id).completedAt()).isEqualTo(at(9, 30));
  }

  @Test
  void whatWasNotFullyDoneNeedsAReason() {
    Long id = book(patient, gym, 9, 0, 30);
    clock.set(at(9, 20));
    assertThatThrownBy(() -> complete(id, AppointmentState.PARTIAL, null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Say why");
    assertThatThrownBy(() -> complete(id, AppointmentState.CANCELLED, "x"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("done, partial or not-done");
    complete(id, AppointmentState.PARTIAL, "Tired after ten minutes.");
    assertThat(appointments.byId(id).reason()).isEqualTo("Tired after ten minutes.");
    assertThatThrownBy(() -> complete(id, AppointmentState.DONE, null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("already");
  }

  @Test
  void nobodyIsANoShowBeforeTheTimeAndALateComerMayStillArrive() {
    Long id = book(patient, gym, 9, 0, 30);
    assertThatThrownBy(() -> visits.noShow(id, null, null)).isInstanceOf(Refusal.class);
    clock.set(at(9, 16));
    visits.noShow(id, null, null);
    assertThat(appointments.byId(id).state()).isEqualTo(AppointmentState.NO_SHOW);
    visits.arrive(id, null, null, null);
    assertThat(appointments.byId(id).state()).isEqualTo(AppointmentState.ARRIVED);
  }

  @Test
  void aTherapistWithMorePatientsThanUsualIsAllowedAndSaid() {
    Member pt = crew.member(Roles.THERAPIST, Credential.PT, place);
    locations.addRoom(place, "Hall", 5);
    Long one = bookWith(pt, patient, at(9, 0));
    bookWith(pt, folk.patient(place), at(9, 15));
    assertThat(appointments.byId(one).warning()).as("two at once are usual").isNull();
    therapists.atOnce(pt.id(), 1);
    assertThat(appointments.byId(one).warning())
        .contains("another patient at the same time, and sees one at once");
    therapists.atOnce(pt.id(), null);
    therapists.enter(
        new TherapistTimes.NewTimeOff(
            pt.id(),
            OffKind.BREAK,
            DAY,
            null,
            true,
            LocalTime.of(9, 0),
            LocalTime.of(9, 10),
            null));
    assertThat(appointments.byId(one).warning()).contains("has a break at that time");
    assertThat(appointments.byId(bookWith(pt, folk.patient(place), at(9, 45))).warnings())
        .as("a break before is over")
        .isEmpty();
  }

  @Test
  void theDaysOnWhichAPatientComesAreTheStandingOnes() {
    book(patient, gym, 9, 0, 30);
    Long off = appointments.book(wanted(patient, gym, null, at(9, 0).plus(Duration.ofDays(1)), 30));
    appointments.book(wanted(patient, gym, null, at(9, 0).plus(Duration.ofDays(2)), 30));
    appointments.cancel(off, "Holiday.", null, null);
    assertThat(days.appointmentDays(patient, DAY, DAY.plusDays(2)))
        .containsExactly(DAY, DAY.plusDays(2));
    assertThat(days.appointmentDays(patient, DAY.plusDays(1), DAY.plusDays(1))).isEmpty();
    assertThat(days.of(patient)).hasSize(2);
  }

  @Test
  void theFrontDeskSeesWhoComesNext() {
    Long soon = book(patient, gym, 9, 0, 30);
    book(folk.patient(place), gym, 12, 0, 30);
    clock.set(at(9, 10));
    assertThat(ofDay.next(place, Duration.ofHours(2)))
        .extracting(AppointmentView::id)
        .containsExactly(soon);
    complete(soon, AppointmentState.DONE, null);
    assertThat(ofDay.next(place, Duration.ofHours(2))).isEmpty();
  }

  @Test
  void anotherLocationsAppointmentsAreNotThere() {
    Long id = book(patient, gym, 9, 0, 30);
    Long elsewhere = crew.location(Crew.unique("Else"));
    Member clerk = crew.member(Roles.FRONT_DESK, Credential.NONE, elsewhere);
    assertThatThrownBy(() -> crew.as(clerk.id(), () -> appointments.byId(id)))
        .isInstanceOf(NotFound.class);
    assertThatThrownBy(() -> crew.as(clerk.id(), () -> appointments.ofDay(place, DAY)))
        .isInstanceOf(NotFound.class);
    assertThat(
            appointments.search(List.of(elsewhere), DAY, DAY, null, null, Paging.of(0, 10)).items())
        .isEmpty();
  }

  @Test
  void aFileMayHoldWhatIsPastAndIsHeldToWhatIsToCome() {
    String ref = Crew.unique("ap-");
    EnteredAppointment past = entered(ref, patient, at(9, 0).minus(Duration.ofDays(200)), "done");
    Long id = entry.enter(past);
    assertThat(entry.enter(past)).isEqualTo(id);
    assertThat(appointments.byId(id).completedAt()).isNotNull();
    entry.enter(entered(Crew.unique("ap-"), patient, at(9, 0), "booked"));
    assertThatThrownBy(() -> entry.enter(entered(Crew.unique("ap-"), patient, at(9, 10), "booked")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("another appointment");
    assertThatThrownBy(() -> entry.enter(entered(Crew.unique("ap-"), patient, at(11, 0), "done")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("still to come");
  }

  private EnteredAppointment entered(String ref, Long who, Instant start, String state) {
    return new EnteredAppointment(
        ref,
        place,
        who,
        null,
        gym,
        null,
        start,
        start.plus(Duration.ofMinutes(30)),
        null,
        null,
        0,
        AppointmentState.of(state),
        null,
        null);
  }

  private void complete(Long id, AppointmentState outcome, String reason) {
    visits.complete(id, new Visits.Completion(outcome, reason, null, null, null));
  }

  private UnitView unit(int channels) {
    return scene.readyUnit(place, scene.kind(channels));
  }

  private Long bookWith(Member therapist, Long who, Instant start) {
    return appointments.book(
        new NewAppointment(
            place,
            who,
            therapist.id(),
            gym,
            null,
            start,
            start.plus(Duration.ofMinutes(30)),
            null,
            null,
            0,
            null));
  }

  private Long book(Long who, Long room, int hour, int minute, int minutes) {
    return book(who, room, null, hour, minute, minutes);
  }

  private Long book(Long who, Long room, UnitView unit, int hour, int minute, int minutes) {
    return appointments.book(wanted(who, room, unit, at(hour, minute), minutes));
  }

  private NewAppointment wanted(Long who, Long room, UnitView unit, Instant start, int minutes) {
    return new NewAppointment(
        place,
        who,
        null,
        room,
        unit == null ? null : unit.id(),
        start,
        start.plus(Duration.ofMinutes(minutes)),
        null,
        null,
        unit == null ? 0 : 2,
        null);
  }

  private static Instant at(int hour, int minute) {
    return LocalDateTime.of(DAY, LocalTime.of(hour, minute)).atZone(ZONE).toInstant();
  }
}
