package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.web.Refusal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/**
 * However people push a unit about, it never reaches a person unwiped, uninspected or untested. A
 * small model of its own keeps the facts of the world: who used it, what was done since.
 */
class UnitWalkProperties {
  private static final Instant START = Instant.parse("2026-01-05T13:00:00Z");
  private static final Duration HOLD = Duration.ofMinutes(9);
  private static final Duration CONTACT = Duration.ofMinutes(4);

  /** The world: what is true of the thing itself, whatever the program says of it. */
  private static final class World {
    boolean soiled;
    Instant cleanFrom = START;
    Instant heldUntil = START;
    boolean suspect;
    boolean tested = true;
    UseKind user;
  }

  @Property(tries = 2000)
  void noWalkBringsASoiledSuspectOrUntestedUnitToAPerson(
      @ForAll @Size(max = 60) List<@IntRange(max = 17) Integer> steps) {
    Unit unit = UnitStatesTest.unit(UnitState.READY);
    unit.stateSince = START;
    unit.nextTestOn = LocalDate.of(2027, 1, 1);
    World world = new World();
    Instant now = START;
    for (int step : steps) {
      now = now.plus(Duration.ofMinutes(1));
      unit.settle(now);
      UnitState before = unit.state;
      boolean moved = step(unit, world, step, now);
      if (!moved) {
        assertThat(unit.state).as("a refused move changes nothing").isEqualTo(before);
      }
      check(unit, world, now);
    }
  }

  /** Makes the move; what the world learns of it is true only if it was not refused. */
  private static boolean step(Unit unit, World world, int step, Instant now) {
    LocalDate today = LocalDate.ofInstant(now, ZoneOffset.UTC);
    try {
      switch (step) {
        case 0 -> unit.reserve(UseKind.LOAN, 7L, today, now);
        case 1 -> unit.release(now);
        case 2, 3 -> {
          UseKind kind = step == 2 ? UseKind.LOAN : UseKind.TREATMENT;
          if (world.user != null || !testCounts(unit, today)) {
            return false; // the service asks the row of uses and the test before it calls begin
          }
          unit.begin(kind, now);
          assertThat(world.soiled && world.cleanFrom == null).as("soiled").isFalse();
          assertThat(world.cleanFrom).as("contact time").isBeforeOrEqualTo(now);
          assertThat(world.suspect).as("suspect").isFalse();
          assertThat(world.tested).as("tested").isTrue();
          world.user = kind;
          world.soiled = true;
          world.cleanFrom = null;
          world.suspect = kind == UseKind.LOAN;
        }
        case 4, 5 -> {
          if (world.user == null) {
            return false;
          }
          unit.end(world.user, step == 4 ? UnitState.TO_WIPE : UnitState.OUT_OF_SERVICE, now);
          world.suspect = world.suspect || step == 5;
          world.user = null;
        }
        case 6 -> {
          unit.wiped(now, now.plus(CONTACT));
          Instant dry = now.plus(CONTACT);
          world.cleanFrom = dry.isBefore(world.heldUntil) ? world.heldUntil : dry;
        }
        case 7 -> {
          unit.inspected(true, null, now);
          world.suspect = false;
        }
        case 8 -> unit.inspected(false, "bent plug", now);
        case 9 -> {
          unit.outOfService("odd noise", false, now);
          world.suspect = true;
        }
        case 10 -> {
          unit.outOfService("dropped", true, now);
          world.suspect = true;
          world.tested = false;
        }
        case 11 -> {
          if (world.user != null) {
            return false;
          }
          unit.toInspection(now);
        }
        case 12 -> unit.missing("no answer", now);
        case 13 -> {
          unit.found(now);
          world.user = null;
        }
        case 14 -> {
          if (world.user != null && unit.state != UnitState.MISSING) {
            return false;
          }
          unit.retire("worn", today, now);
          world.user = null;
        }
        case 15 -> {
          unit.nextTestOn = today.plusMonths(12);
          world.tested = true;
        }
        case 17 -> {
          unit.soiled(EnumSet.of(Soiling.PESTS), now.plus(HOLD), now);
          world.soiled = true;
          world.cleanFrom = null;
          world.heldUntil = now.plus(HOLD);
        }
        default -> {
          unit.troubleInUse(true);
          world.suspect = true;
          world.tested = false;
          if (!unit.inUse()) {
            unit.outOfService("trouble", true, now);
          }
        }
      }
      return true;
    } catch (Refusal refused) {
      assertThat(refused.reasons()).isNotEmpty();
      return false;
    }
  }

  private static boolean testCounts(Unit unit, LocalDate today) {
    return unit.nextTestOn != null && !today.isAfter(unit.nextTestOn);
  }

  private static void check(Unit unit, World world, Instant now) {
    UnitState state = unit.stateAt(now);
    if (state == UnitState.READY || state == UnitState.RESERVED) {
      assertThat(world.user).as("nobody has a unit that is ready").isNull();
      assertThat(world.cleanFrom).as("wiped").isNotNull().isBeforeOrEqualTo(now);
      assertThat(world.suspect).as("inspected").isFalse();
    }
    if (state == UnitState.ON_LOAN) {
      assertThat(world.user).isEqualTo(UseKind.LOAN);
    }
    if (state == UnitState.IN_TREATMENT) {
      assertThat(world.user).isEqualTo(UseKind.TREATMENT);
    }
    assertThat(unit.reservedId != null).isEqualTo(unit.state == UnitState.RESERVED);
    assertThat(unit.stateSince).isBeforeOrEqualTo(now);
  }
}
