package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Refusal;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.function.IntFunction;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Twenty clerks book at the same moment. Run against each database. */
abstract class BookingRace {
  private static final int CLERKS = 20;

  /** A Wednesday at 7 in New York. */
  private static final Instant MORNING = Instant.parse("2026-03-04T12:00:00Z");

  private static final Instant ELEVEN = Instant.parse("2026-03-04T16:00:00Z");

  @Inject Appointments appointments;
  @Inject Locations locations;
  @Inject ShelfScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Long gym;
  private List<Long> patients;

  @BeforeEach
  void aRoomForTwo() {
    clock.set(MORNING);
    place = crew.location(Crew.unique("Race"));
    locations.addRoom(place, "Gym", 2);
    gym = locations.rooms(place).get(0).id();
    patients = new ArrayList<>();
    for (int i = 0; i < CLERKS; i++) {
      patients.add(folk.patient(place));
    }
  }

  @Test
  void as_many_win_as_the_room_holds() throws Exception {
    assertThat(won(clerk -> wanted(patients.get(clerk), gym, null))).isEqualTo(2);
    assertThat(scene.call(() -> appointments.between(place, MORNING, ELEVEN.plusSeconds(1))))
        .hasSize(2);
  }

  @Test
  void of_many_who_name_one_unit_one_wins() throws Exception {
    UnitView unit = scene.readyUnit(place, scene.kind(2));
    assertThat(won(clerk -> wanted(patients.get(clerk), null, unit))).isEqualTo(1);
  }

  @Test
  void of_many_who_book_one_patient_one_wins() throws Exception {
    assertThat(won(clerk -> wanted(patients.get(0), null, null))).isEqualTo(1);
  }

  @Test
  void units_are_planned_for_as_many_as_there_are_and_for_none_twice() throws Exception {
    scene.readyUnit(place, scene.kind(2));
    scene.readyUnit(place, scene.kind(2));
    scene.readyUnit(place, scene.kind(2));
    assertThat(won(clerk -> treated(patients.get(clerk)))).isEqualTo(CLERKS);
    List<AppointmentView> all =
        scene.call(() -> appointments.between(place, MORNING, ELEVEN.plusSeconds(1)));
    assertThat(all.stream().filter(one -> one.unit() != null).map(one -> one.unit().tag()))
        .hasSize(3)
        .doesNotHaveDuplicates();
  }

  private int won(IntFunction<NewAppointment> booking) throws Exception {
    ExecutorService clerks = Executors.newFixedThreadPool(CLERKS);
    CyclicBarrier start = new CyclicBarrier(CLERKS);
    try {
      List<Future<Boolean>> answers = new ArrayList<>();
      for (int i = 0; i < CLERKS; i++) {
        NewAppointment wanted = booking.apply(i);
        Callable<Boolean> clerk =
            () -> {
              start.await(60, TimeUnit.SECONDS);
              try {
                return scene.call(() -> appointments.book(wanted)) > 0;
              } catch (InUse | Refusal taken) {
                assertThat(taken.getMessage()).contains("Free: ");
                return false;
              }
            };
        answers.add(clerks.submit(clerk));
      }
      int won = 0;
      for (Future<Boolean> answer : answers) {
        won += answer.get(2, TimeUnit.MINUTES) ? 1 : 0;
      }
      return won;
    } finally {
      clerks.shutdownNow();
    }
  }

  private NewAppointment wanted(Long who, Long room, UnitView unit) {
    return new NewAppointment(
        place,
        who,
        null,
        room,
        unit == null ? null : unit.id(),
        ELEVEN,
        ELEVEN.plus(Duration.ofMinutes(30)),
        null,
        null,
        unit == null ? 0 : 2,
        null);
  }

  private NewAppointment treated(Long who) {
    return new NewAppointment(
        place,
        who,
        null,
        null,
        null,
        ELEVEN,
        ELEVEN.plus(Duration.ofMinutes(30)),
        null,
        null,
        2,
        null);
  }
}
