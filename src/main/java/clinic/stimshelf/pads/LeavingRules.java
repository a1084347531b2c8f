package clinic.stimshelf.pads;

import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Which packs may leave the cupboard: nothing expired on the day it is needed, nothing quarantined
 * or recalled, no more than there is, and the first expiry first unless a reason is given.
 */
final class LeavingRules {
  private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("MM/dd/yyyy", Locale.US);
  private static final Comparator<LotFacts> FIRST_EXPIRY =
      Comparator.comparing(LotFacts::expiresOn).thenComparing(LotFacts::number);

  private LeavingRules() {}

  /**
   * Everything that stands against the lines.
   *
   * @param lots every lot of the types concerned that the location has, and every lot of the lines
   * @param packs what the location has of each before anything of this leaves
   * @param day the location's day on which they leave
   * @param at the moment they leave
   */
  static List<Reason> against(
      List<LotFacts> lots,
      Map<Long, Integer> packs,
      List<PackLine> lines,
      LocalDate day,
      Instant at) {
    Refusals refusals = new Refusals();
    Map<Long, LotFacts> byId = new HashMap<>();
    lots.forEach(lot -> byId.put(lot.id(), lot));
    Map<Long, Integer> left = new HashMap<>(packs);
    lines.forEach(line -> left.merge(line.lotId(), -line.packs(), Integer::sum));
    for (PackLine line : lines) {
      LotFacts lot = byId.get(line.lotId());
      if (line.packs() < 1 || line.packs() > 10_000) {
        refusals.add(
            "packs", "Packs must be a whole number from 1 to 10000, not " + line.packs() + ".");
      }
      if (lot == null) {
        refusals.add("lotId", "There is no lot with the number " + line.lotId() + ".");
        continue;
      }
      if (lot.heldAt(at)) {
        refusals.add(
            "lotId",
            "Lot " + lot.number() + " is " + lot.state().words() + reason(lot.stateReason()) + ".",
            "Take another lot.");
      }
      LocalDate needed = neededOn(line, day);
      if (lot.expiresOn().isBefore(needed)) {
        refusals.add(
            "lotId",
            "Lot "
                + lot.number()
                + (lot.expiresOn().isBefore(day)
                    ? " expired on "
                    : " expires before it is needed, on ")
                + DAY.format(lot.expiresOn())
                + ".",
            "Take another lot.");
      }
      if (left.getOrDefault(line.lotId(), 0) < 0) {
        refusals.add(
            "packs",
            "Of lot "
                + lot.number()
                + " there are "
                + packs.getOrDefault(lot.id(), 0)
                + " packs here, not "
                + (packs.getOrDefault(lot.id(), 0) - left.get(lot.id()))
                + ".",
            "Take fewer, another lot, or count the drawer.");
        left.put(line.lotId(), 0);
      }
      if (line.laterLotReason() == null || line.laterLotReason().isBlank()) {
        earlier(lots, left, lot, needed, at).stream()
            .findFirst()
            .ifPresent(
                first ->
                    refusals.add(
                        "laterLotReason",
                        "Lot "
                            + first.number()
                            + " expires earlier, on "
                            + DAY.format(first.expiresOn())
                            + ", and "
                            + left.get(first.id())
                            + " packs of it are here.",
                        "Take that lot, or say why this one."));
      }
    }
    return refusals.reasons();
  }

  /** Packs to take, first expiry first; fewer than asked for if there are no more. */
  static List<PackLine> propose(
      List<LotFacts> lots, Map<Long, Integer> packs, int wanted, LocalDate neededOn) {
    List<PackLine> lines = new ArrayList<>();
    int missing = wanted;
    for (LotFacts lot :
        lots.stream().filter(l -> l.usable(neededOn)).sorted(FIRST_EXPIRY).toList()) {
      int taken = Math.min(missing, packs.getOrDefault(lot.id(), 0));
      if (taken > 0) {
        lines.add(new PackLine(lot.id(), taken, null, neededOn));
        missing -= taken;
      }
    }
    return lines;
  }

  private static List<LotFacts> earlier(
      List<LotFacts> lots, Map<Long, Integer> left, LotFacts lot, LocalDate needed, Instant at) {
    return lots.stream()
        .filter(other -> other.padTypeId().equals(lot.padTypeId()))
        .filter(other -> other.expiresOn().isBefore(lot.expiresOn()))
        .filter(other -> !other.expiresOn().isBefore(needed) && !other.heldAt(at))
        .filter(other -> left.getOrDefault(other.id(), 0) > 0)
        .sorted(FIRST_EXPIRY)
        .toList();
  }

  static LocalDate neededOn(PackLine line, LocalDate day) {
    return line.neededOn() == null || line.neededOn().isBefore(day) ? day : line.neededOn();
  }

  private static String reason(String text) {
    return text == null ? "" : " (" + text + ")";
  }
}
