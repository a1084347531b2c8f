package clinic.stimshelf.pads;

import java.util.List;

/**
 * What the ledger showed of a lot while a count went on.
 *
 * @param least fewest packs at any moment
 * @param most most packs at any moment
 * @param now packs at the end
 */
record LotMeanwhile(int least, int most, int now) {

  /**
   * Goes back from what is there now.
   *
   * @param moves packs of each movement since the count began, the last first; out below zero
   */
  static LotMeanwhile of(int now, List<Integer> moves) {
    int least = now;
    int most = now;
    int then = now;
    for (int packs : moves) {
      then -= packs;
      least = Math.min(least, then);
      most = Math.max(most, then);
    }
    return new LotMeanwhile(least, most, now);
  }

  boolean moved() {
    return least != most;
  }

  /** By how much a sum lies outside of what the ledger showed; 0 where it fits. */
  int off(int counted) {
    return counted < least ? counted - least : Math.max(0, counted - most);
  }

  String words(String lot, int counted) {
    return "Of lot "
        + lot
        + " the ledger has "
        + (moved() ? least + " to " + most + " packs over the time of the count" : now + " packs")
        + ", counted were "
        + counted
        + ".";
  }
}
