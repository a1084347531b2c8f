package clinic.stimshelf.pads;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;

/** The rule by which orders are proposed, for whoever wants to try it on other days than today. */
public final class OrderRule {
  /** Rates are counted over the last 26 weeks; common practice, no source. */
  public static final int RATE_DAYS = 182;

  /** So little history that a rate of it would jump about; common practice, no source. */
  public static final int LEAST_RATE_DAYS = 28;

  /** Suppliers change; common practice, no source. */
  public static final int LEAD_TIME_YEARS = 2;

  private OrderRule() {}

  /**
   * What is known of one pad type at one location on a morning.
   *
   * @param shelf usable packs by the day they expire
   * @param coming packs on order by the day they are expected
   * @param waiting packs asked for and not yet given
   * @param promised packs due to leave, with the chance that they do
   * @param historyDays days of the past that the rates are counted over
   * @param drawerTakes packs of each drawer take in these days
   * @param appointmentUses packs used in each appointment in these days
   * @param newStarts packs of each program that began in these days, from its first days
   * @param draws packs of everything that left in these days, taking by taking
   * @param pastLeadDays days that the deliveries known by then took
   * @param keptDays days a fresh delivery keeps
   */
  public record Known(
      LocalDate day,
      List<Packs> shelf,
      List<Packs> coming,
      int waiting,
      List<DatedPacks> promised,
      int historyDays,
      List<Integer> drawerTakes,
      List<Integer> appointmentUses,
      List<Integer> newStarts,
      List<Integer> draws,
      List<Integer> pastLeadDays,
      int keptDays) {}

  /** Packs with the day that matters for them. */
  public record Packs(LocalDate day, int packs) {}

  /** How the location orders. */
  public record Terms(int reviewDays, double serviceLevel, double expiryCertainty) {}

  /**
   * @param level order at or below
   * @param packs to order now; 0 for none
   */
  public record Decision(long level, long packs) {}

  /** What would be proposed. */
  public static Decision decide(PadTypeView type, Terms terms, Known known) {
    return Reckoning.decide(
        new ReorderFacts(
            type.code(),
            "",
            known.day(),
            known.shelf().stream()
                .map(lot -> new ReorderFacts.LotHeld("", lot.day(), false, lot.packs()))
                .toList(),
            known.waiting(),
            known.coming().stream()
                .map(one -> new ReorderFacts.Coming(one.day(), one.packs()))
                .toList(),
            known.promised(),
            known.historyDays(),
            known.drawerTakes(),
            known.appointmentUses(),
            known.newStarts(),
            known.draws(),
            known.pastLeadDays(),
            type.leadDays(),
            known.keptDays(),
            terms.reviewDays(),
            terms.serviceLevel(),
            terms.expiryCertainty(),
            type.packsPerCase(),
            type.minimumOrder(),
            optional(type.orderCost()),
            optional(type.holdingCost())));
  }

  private static OptionalDouble optional(BigDecimal amount) {
    return amount == null ? OptionalDouble.empty() : OptionalDouble.of(amount.doubleValue());
  }
}
