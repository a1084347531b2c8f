package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CollisionsTest {
  private static final Instant NINE = Instant.parse("2026-03-04T14:00:00Z");
  private final Collisions collisions =
      new Collisions(2, Duration.ofMinutes(5), Duration.ofMinutes(10));

  /** Minutes from nine; the wanted appointment runs from 0 to 30. */
  @ParameterizedTest
  @CsvSource({
    "-60, -30, false", // completely before
    "-30, 0, false", // ends where it begins
    "-30, 1, true", // partly before
    "0, 30, true", // the same
    "10, 20, true", // within
    "-10, 40, true", // around
    "29, 60, true", // partly after
    "30, 60, false", // begins where it ends
    "60, 90, false", // completely after
  })
  void aPatientsAppointmentsMayTouchButNotOverlap(int from, int to, boolean collides) {
    NewAppointment wanted = wanted(1L, 9L, null, 0, 30);
    assertThat(collisions.ofPatient(wanted, List.of(taken(1L, null, null, from, to))))
        .hasSize(collides ? 1 : 0);
    assertThat(collisions.ofPatient(wanted, List.of(taken(2L, null, null, from, to)))).isEmpty();
  }

  @Test
  void aRoomIsFullWhenAsManyAreThereAtOneMoment() {
    NewAppointment wanted = wanted(1L, 9L, null, 0, 30);
    assertThat(collisions.roomFull(wanted, List.of())).isFalse();
    assertThat(collisions.roomFull(wanted, List.of(taken(2L, 9L, null, 0, 30)))).isFalse();
    assertThat(
            collisions.roomFull(
                wanted, List.of(taken(2L, 9L, null, 0, 15), taken(3L, 9L, null, 15, 30))))
        .as("one after the other")
        .isFalse();
    assertThat(
            collisions.roomFull(
                wanted, List.of(taken(2L, 9L, null, -30, 16), taken(3L, 9L, null, 15, 60))))
        .as("together for a minute")
        .isTrue();
    assertThat(
            collisions.roomFull(
                wanted, List.of(taken(2L, 9L, null, -30, 60), taken(3L, 8L, null, -30, 60))))
        .as("the other one is in another room")
        .isFalse();
    assertThat(
            collisions.roomFull(
                wanted(1L, null, null, 0, 30),
                List.of(taken(2L, 9L, null, 0, 30), taken(3L, 9L, null, 0, 30))))
        .as("no room in particular")
        .isFalse();
  }

  /** A unit is taken from five minutes before to ten minutes after. */
  @ParameterizedTest
  @CsvSource({"-30, -15, false", "-30, -14, true", "45, 60, false", "44, 60, true"})
  void aUnitNeedsItsTimeToBeSetUpAndWiped(int from, int to, boolean collides) {
    assertThat(
            collisions.ofUnit(wanted(1L, null, 5L, 0, 30), List.of(taken(2L, null, 5L, from, to))))
        .hasSize(collides ? 1 : 0);
    assertThat(
            collisions.ofUnit(wanted(1L, null, 6L, 0, 30), List.of(taken(2L, null, 5L, from, to))))
        .isEmpty();
  }

  private static NewAppointment wanted(Long patient, Long room, Long unit, int from, int to) {
    return new NewAppointment(
            7L, patient, null, room, unit, at(from), at(to), null, null, unit == null ? 0 : 2, null)
        .complete();
  }

  private static Taken taken(Long patient, Long room, Long unit, int from, int to) {
    return new Taken(
        99L,
        patient,
        null,
        room,
        unit,
        at(from),
        at(to),
        unit == null ? null : at(from),
        unit == null ? null : at(to));
  }

  private static Instant at(int minutes) {
    return NINE.plus(Duration.ofMinutes(minutes));
  }
}
