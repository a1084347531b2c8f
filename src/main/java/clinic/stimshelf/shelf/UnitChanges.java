package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import java.util.function.Consumer;

/** The one way in which a unit changes: its row is held, and the trail says what changed. */
@ApplicationScoped
class UnitChanges {
  @Inject Units units;
  @Inject Trail trail;
  @Inject Event<ReservationDropped> reservationDropped;

  Unit change(Long unitId, String action, Happened happened, Consumer<Unit> move) {
    Unit unit = units.locked(unitId);
    unit.settle(happened.at());
    UnitFacts before = UnitFacts.of(unit);
    move.accept(unit);
    trail.record(
        Subject.of("unit", unit.tag),
        unit.locationId,
        action,
        happened,
        before,
        UnitFacts.of(unit));
    boolean gone =
        unit.state == UnitState.OUT_OF_SERVICE
            || unit.state == UnitState.RETIRED
            || unit.state == UnitState.TO_WIPE;
    if (gone && before.reservedFor() != null) {
      reservationDropped.fire(
          new ReservationDropped(unitId, before.reservedFor(), before.reservedId()));
    }
    return unit;
  }
}
