package clinic.stimshelf.calc.consumption;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.EnumMap;
import java.util.Map;

/**
 * The exact steps from what was planned, or used before, to what was used. They add up to the
 * difference, in packs and in money, whatever goes in.
 *
 * <p>With the packs A, of these waste W, the worth V of the sessions in packs, costs C, 0 for
 * before and 1 for now, r packs used for each pack the sessions are worth and c the price before:
 *
 * <ul>
 *   <li>sessions = r·(V1 − V0)
 *   <li>wear = (A1 − W1 − r·V1) − (A0 − W0 − r·V0)
 *   <li>waste = W1 − W0
 *   <li>price = (C1 − c·A1) − (C0 − c·A0), money only; the others cost c a pack
 * </ul>
 *
 * <p>Against a plan, r is 1, A0 = V0 and W0 = 0, which leaves {@code (S1−S0)·m/U0}, {@code A1 − W1
 * − S1·m/U0}, {@code W1} and {@code A1·(c1−c0)}. This is the usual analysis of variances, one cause
 * after the other (common practice, no source): another order of causes would share out the joint
 * effects differently.
 *
 * @param before packs and costs before
 * @param now packs and costs now
 * @param packs by cause; price is 0
 * @param costs by cause
 */
public record Split(
    Amount before, Amount now, Map<Cause, BigDecimal> packs, Map<Cause, BigDecimal> costs) {

  /** Packs and what they cost. */
  public record Amount(BigDecimal packs, BigDecimal cost) {
    static Amount of(Use use) {
      return new Amount(use.packs(), use.cost());
    }

    Amount plus(Amount other) {
      return new Amount(packs.add(other.packs), cost.add(other.cost));
    }
  }

  /** No difference and nothing used. */
  public static Split none() {
    return of(Use.NONE, Use.NONE, BigDecimal.ONE, BigDecimal.ZERO);
  }

  /**
   * Against a plan.
   *
   * @param planned packs that the planned sessions are worth
   * @param price planned for a pack
   */
  public static Split ofPlan(BigDecimal planned, Use now, BigDecimal price) {
    return of(Use.planned(planned, price), now, BigDecimal.ONE, price);
  }

  /**
   * Against what was.
   *
   * @param rate packs used before for each pack that the sessions of then were worth
   * @param price of a pack before
   */
  public static Split of(Use before, Use now, BigDecimal rate, BigDecimal price) {
    Map<Cause, BigDecimal> packs = new EnumMap<>(Cause.class);
    packs.put(Cause.SESSIONS, rate.multiply(now.worth().subtract(before.worth())));
    packs.put(Cause.WEAR, beyond(now, rate).subtract(beyond(before, rate)));
    packs.put(Cause.WASTE, now.waste().subtract(before.waste()));
    packs.put(Cause.PRICE, BigDecimal.ZERO);
    Map<Cause, BigDecimal> costs = new EnumMap<>(Cause.class);
    packs.forEach((cause, amount) -> costs.put(cause, amount.multiply(price)));
    costs.put(Cause.PRICE, dearer(now, price).subtract(dearer(before, price)));
    return new Split(Amount.of(before), Amount.of(now), packs, costs);
  }

  /**
   * Packs used for each pack that the sessions were worth, waste left out; 1 where there was no
   * session or nothing was used, because then nothing is known but the plan.
   */
  public static BigDecimal rate(Use before) {
    BigDecimal used = before.packs().subtract(before.waste());
    return before.worth().signum() > 0 && used.signum() > 0
        ? used.divide(before.worth(), Use.PLACES, RoundingMode.HALF_EVEN)
        : BigDecimal.ONE;
  }

  /** What a pack cost on average, or the price given where none was used. */
  public static BigDecimal price(Use before, BigDecimal otherwise) {
    return before.packs().signum() > 0
        ? before.cost().divide(before.packs(), Use.PLACES, RoundingMode.HALF_EVEN)
        : otherwise;
  }

  /** Both together; what adds up apart adds up together. */
  public Split plus(Split other) {
    return new Split(
        before.plus(other.before),
        now.plus(other.now),
        sum(packs, other.packs),
        sum(costs, other.costs));
  }

  private static Map<Cause, BigDecimal> sum(
      Map<Cause, BigDecimal> one, Map<Cause, BigDecimal> other) {
    Map<Cause, BigDecimal> sum = new EnumMap<>(one);
    other.forEach((cause, amount) -> sum.merge(cause, amount, BigDecimal::add));
    return sum;
  }

  private static BigDecimal beyond(Use use, BigDecimal rate) {
    return use.packs().subtract(use.waste()).subtract(rate.multiply(use.worth()));
  }

  private static BigDecimal dearer(Use use, BigDecimal price) {
    return use.cost().subtract(price.multiply(use.packs()));
  }
}
