package clinic.stimshelf.loans;

import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.shelf.Soiling;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What came back.
 *
 * @param parts how each part that went along came back; one not named is present
 * @param trouble what the patient or the desk noticed, {@code null} for none
 * @param sealedPacks packs that come back sealed
 * @param padSets how each open pad set ended, by its number; one not named is still good
 * @param soiling what is on it beyond ordinary use
 * @param locationCode where it was brought; {@code null} for the loan's own location
 */
public record CheckInOrder(
    Map<Long, CameBack> parts,
    Trouble trouble,
    String troubleWords,
    List<PackLine> sealedPacks,
    Map<Long, PadOutcome> padSets,
    Set<Soiling> soiling,
    Integer useCounter,
    String locationCode,
    String note,
    Instant happenedAt,
    String lateReason) {

  public CheckInOrder {
    parts = parts == null ? Map.of() : Map.copyOf(parts);
    sealedPacks = sealedPacks == null ? List.of() : List.copyOf(sealedPacks);
    soiling = soiling == null ? Set.of() : Set.copyOf(soiling);
    padSets = padSets == null ? Map.of() : Map.copyOf(padSets);
  }

  /** A check in with nothing out of the ordinary. */
  public static CheckInOrder complete() {
    return new CheckInOrder(null, null, null, null, null, null, null, null, null, null, null);
  }
}
