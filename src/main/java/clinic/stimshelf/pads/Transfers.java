package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Packs that another location has too many of: they are moved before any are ordered. */
@ApplicationScoped
public class Transfers {
  /** Days of use above its order level that a location keeps; common practice, no source. */
  static final int KEPT_DAYS = 30;

  @Inject Reorders reorders;
  @Inject Locations locations;

  /**
   * Packs to move here.
   *
   * @param from code of the location that has too many
   * @param why in a sentence
   * @param enough whether nothing needs to be ordered then
   */
  public record Proposal(
      String code, String from, String fromName, int packs, String why, boolean enough) {}

  /** What could be moved to a location instead of ordered, by pad code. */
  @Transactional
  public Map<String, List<Proposal>> into(
      Long here, Collection<Reorders.Both> ours, Collection<Long> locationIds) {
    Map<String, List<Proposal>> proposals = new HashMap<>();
    List<Reorders.Both> due =
        ours.stream().filter(both -> both.answer().orderQuantity() > 0).toList();
    if (due.isEmpty()) {
      return proposals;
    }
    Map<String, List<Proposal>> offers = new HashMap<>();
    for (Long place : locationIds) {
      if (!place.equals(here)) {
        LocationView other = locations.byId(place);
        for (Reorders.Both theirs : reorders.all(place)) {
          int spare = spare(theirs);
          if (spare > 0) {
            offers
                .computeIfAbsent(theirs.position().code(), code -> new ArrayList<>())
                .add(
                    new Proposal(
                        theirs.position().code(),
                        other.code(),
                        other.name(),
                        spare,
                        why(other, theirs, spare),
                        false));
          }
        }
      }
    }
    for (Reorders.Both both : due) {
      List<Proposal> moves =
          taken(
              both.answer().reorderPoint() + 1 - both.position().position(),
              offers.getOrDefault(both.position().code(), List.of()));
      // Where packs must be ordered all the same, moving a few only makes work.
      if (moves.stream().anyMatch(Proposal::enough)) {
        proposals.put(both.position().code(), moves);
      }
    }
    return proposals;
  }

  /**
   * Packs of a location that it will not miss: what will expire there unused, or what it holds
   * above its order level and a month's use.
   */
  static int spare(Reorders.Both theirs) {
    PadPosition position = theirs.position();
    ReorderView answer = theirs.answer();
    long kept = answer.reorderPoint() + (long) Math.ceil(perDay(answer) * KEPT_DAYS);
    long there = Math.max(0, (long) position.usable() - position.owed());
    long expiring = answer.expiring().stream().mapToLong(ReorderView.Expiring::packs).sum();
    long above = Math.min(there, position.position() - kept);
    long wasted = Math.min(expiring, Math.max(0, position.position() - answer.reorderPoint() - 1));
    return (int) Math.max(0, Math.max(above, Math.min(there, wasted)));
  }

  static double perDay(ReorderView answer) {
    return answer.meanDemand() / Math.max(1, answer.leadDays() + answer.reviewDays());
  }

  private static String why(LocationView other, Reorders.Both theirs, int spare) {
    long expiring =
        theirs.answer().expiring().stream().mapToLong(ReorderView.Expiring::packs).sum();
    return expiring >= spare
        ? other.name() + " would let " + PadRow.packs(expiring) + " expire"
        : other.name()
            + " holds "
            + PadRow.packs(spare)
            + " above its order level and "
            + KEPT_DAYS
            + " days of use";
  }

  private static List<Proposal> taken(long needed, List<Proposal> offers) {
    List<Proposal> moves = new ArrayList<>();
    long missing = needed;
    for (Proposal offer :
        offers.stream().sorted(Comparator.comparing(Proposal::packs).reversed()).toList()) {
      int packs = (int) Math.min(missing, offer.packs());
      if (packs > 0) {
        missing -= packs;
        moves.add(
            new Proposal(
                offer.code(), offer.from(), offer.fromName(), packs, offer.why(), missing == 0));
      }
    }
    return moves;
  }
}
