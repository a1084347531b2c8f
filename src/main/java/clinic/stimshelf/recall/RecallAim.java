package clinic.stimshelf.recall;

import clinic.stimshelf.codes.SerialRange;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;

/** Finds out what a new recall is about. */
@ApplicationScoped
class RecallAim {
  @Inject RecallRows rows;
  @Inject RecallReading reading;
  @Inject PadLots lots;
  @Inject ShelfKeeping kinds;
  @Inject UnitTags tags;

  /** Writes down what it is about; what stands against it goes to the refusals. */
  void take(Recall row, NewRecall wanted, Refusals refusals) {
    boolean serials =
        Said.anything(wanted.serialFrom())
            || Said.anything(wanted.serialTo())
            || Said.anything(wanted.kind());
    int named =
        (wanted.lotId() == null ? 0 : 1)
            + (Said.anything(wanted.unitTag()) ? 1 : 0)
            + (serials ? 1 : 0);
    if (named != 1) {
      refusals.add(
          "target",
          named == 0 ? "What is recalled?" : "A recall is about one thing.",
          "Name a pad lot, one unit, or a kind with its first and last serial number.");
      return;
    }
    try {
      if (wanted.lotId() != null) {
        row.target = RecallTarget.LOT;
        row.lotId = wanted.lotId();
        lots.byId(row.lotId, List.of(-1L));
      } else if (Said.anything(wanted.unitTag())) {
        row.target = RecallTarget.UNIT;
        row.unitId = tags.unit(wanted.unitTag().strip()).id();
      } else {
        takeSerials(row, wanted, refusals);
      }
    } catch (NotFound none) {
      refusals.add("target", none.getMessage());
    }
    if (!refusals.any() && another(row)) {
      refusals.add("target", "This is recalled already.", "Go on with the recall that is open.");
    }
  }

  private void takeSerials(Recall row, NewRecall wanted, Refusals refusals) {
    row.target = RecallTarget.SERIALS;
    if (!Said.anything(wanted.kind())) {
      refusals.add("kind", "Of which kind of unit are the serial numbers?", "Choose the kind.");
      return;
    }
    row.kindId = kinds.kind(wanted.kind().strip()).id();
    try {
      SerialRange range = new SerialRange(wanted.serialFrom(), wanted.serialTo());
      row.serialFrom = range.from();
      row.serialTo = range.to();
      if (range.from().length() > 64 || range.to().length() > 64) {
        refusals.add("serialFrom", "A serial number has at most 64 characters.");
      } else if (reading.inRange(row.kindId, range).isEmpty()) {
        refusals.add(
            "serialFrom",
            "No unit of this kind has a serial number from "
                + range.from()
                + " to "
                + range.to()
                + ".",
            "Compare them with the maker’s notice, and with a unit’s own label.");
      }
    } catch (IllegalArgumentException wrong) {
      refusals.add("serialFrom", wrong.getMessage());
    }
  }

  private boolean another(Recall row) {
    return rows.list("state = ?1 and target = ?2", RecallState.OPEN, row.target).stream()
        .anyMatch(
            open ->
                switch (row.target) {
                  case LOT -> row.lotId.equals(open.lotId);
                  case UNIT -> row.unitId.equals(open.unitId);
                  case SERIALS ->
                      row.kindId.equals(open.kindId)
                          && row.serialFrom.equals(open.serialFrom)
                          && row.serialTo.equals(open.serialTo);
                });
  }
}
