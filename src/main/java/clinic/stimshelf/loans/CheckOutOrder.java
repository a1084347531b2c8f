package clinic.stimshelf.loans;

import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.people.Means;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;

/**
 * What shall leave with whom, and what was checked before.
 *
 * @param packs sealed packs by lot
 * @param identifiers how the person was told apart; two are needed
 * @param leftBehind parts of the kit that stay and are owed, each with its reason
 * @param packsReason why fewer packs leave than the program says, if so
 * @param agreement the agreement as signed just now; {@code null} if it is on record
 * @param bringInOn day on which the unit comes in for its safety test, where that falls in the loan
 * @param happenedAt {@code null} for now
 */
public record CheckOutOrder(
    Long programId,
    String unitTag,
    List<PackLine> packs,
    Set<Identifier> identifiers,
    List<LeftBehind> leftBehind,
    String packsReason,
    Agreement agreement,
    LocalDate bringInOn,
    Integer useCounter,
    String note,
    Instant happenedAt,
    String lateReason) {

  public CheckOutOrder {
    packs = packs == null ? List.of() : List.copyOf(packs);
    identifiers = identifiers == null ? Set.of() : Set.copyOf(identifiers);
    leftBehind = leftBehind == null ? List.of() : List.copyOf(leftBehind);
  }

  /** A part that stays behind. */
  public record LeftBehind(Long kitItemId, String reason) {}

  /**
   * The lending agreement, read back and signed.
   *
   * @param relation self, or the guardian's relation to a minor
   * @param means paper or screen
   */
  public record Agreement(
      String signer, String relation, Means means, String language, String textVersion) {}
}
