package clinic.stimshelf.shelf;

import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Refusals;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;

/** What must be true of a unit and its kit before it goes to a patient's home. */
final class Leaving {
  private Leaving() {}

  /** Everything but the state, which another's use explains better. */
  static void checkKit(
      Unit unit, List<KitItem> kit, LocalDate today, Instant now, Refusals refusals) {
    unit.checkTest(today, refusals);
    if (!unit.kind.lendsOut || !unit.purpose.serves(Purpose.HOME)) {
      refusals.add(
          "purpose",
          "Unit " + unit.tag + " is kept for treatments in the clinic.",
          "Choose a unit for home loans, or change what this one serves.");
    }
    if (!unit.holdsChargeAt(now)) {
      refusals.add(
          "charge",
          "Unit " + unit.tag + " is not charged.",
          unit.packSwollen
              ? "Don’t charge it: its battery is judged first."
              : unit.chargingSince == null
                  ? "Charge it, then enter it as charged."
                  : "It is on the charger: enter it as charged when it is full.");
    }
    for (KitItem item : kit) {
      if (item.essential && item.state == PartState.MISSING) {
        refusals.add(
            "kit",
            "The kit of unit " + unit.tag + " lacks its " + item.name + ".",
            "Put one in and enter it on the unit's page.");
      }
    }
  }

  static void checkState(Unit unit, Instant now, Refusals refusals) {
    unit.checkState("given out", EnumSet.of(UnitState.READY, UnitState.RESERVED), now, refusals);
  }

  /** A safety test that falls due before the unit is back: it comes in for it, or is swapped. */
  static void checkTestWithin(Unit unit, LocalDate dueOn, LocalDate today, Refusals refusals) {
    LocalDate test = unit.nextTestOn;
    if (dueOn != null && test != null && !today.isAfter(test) && test.isBefore(dueOn)) {
      refusals.add(
          Shelf.BRING_IN,
          "The safety test of unit "
              + unit.tag
              + " falls due on "
              + Days.full(test)
              + ", within the loan.",
          "Book a day to bring it in or swap it, test it now, or take another unit.");
    }
  }
}
