package clinic.stimshelf.pads;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * When to order, how much, and why.
 *
 * @param serviceLevel chance that no stock-out occurs over lead time and review
 * @param meanDemand packs over lead time and review
 * @param safetyStock reorderPoint − meanDemand
 * @param leadDays mean days from order to delivery
 * @param leadDaysSeen past deliveries these come from; below five the type's value stands in
 * @param reasons their packs sum to the reorder point exactly
 * @param projection the cupboard at the end of each day if nothing further is ordered; below zero
 *     are packs that were asked for and not there
 * @param expiring packs that will probably not be used before they expire
 * @param warnings what to know before ordering
 */
public record ReorderView(
    String code,
    String location,
    int position,
    long reorderPoint,
    long orderQuantity,
    double serviceLevel,
    double meanDemand,
    double sdDemand,
    double safetyStock,
    double leadDays,
    int leadDaysSeen,
    int reviewDays,
    Integer coverDays,
    List<Reason> reasons,
    List<Day> projection,
    List<Expiring> expiring,
    List<String> warnings) {

  /** A share of the reorder point. Kinds: program, appointment, drawer, new-starts, safety. */
  public record Reason(String kind, BigDecimal packs, String text) {}

  /** The cupboard at the end of a day; the band holds 90 of 100 courses. */
  public record Day(LocalDate date, double expected, long low, long high, double stockoutChance) {}

  /** Packs of a lot that will probably expire unused. */
  public record Expiring(String lot, LocalDate expiresOn, int packs) {}
}
