package clinic.stimshelf.calc.consumption;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Whole hundredths that add up: every amount is rounded down, and what is then missing goes to
 * those with the largest remainders (the method of Hamilton for seats, from memory). No amount is
 * moved by a hundredth or more, as long as the total is that of the amounts, rounded.
 */
final class Apportionment {
  private static final int CENTS = 2;

  /** Where quotients that were carried to 20 places are taken for the number they stand for. */
  private static final int SURE_PLACES = 12;

  private Apportionment() {}

  /** To hundredths, halves to the even neighbour. */
  static BigDecimal round(BigDecimal amount) {
    return sure(amount).setScale(CENTS, RoundingMode.HALF_EVEN);
  }

  /**
   * @param amounts in any order; empty stays empty
   * @param total what the answers add up to, in whole hundredths
   */
  static List<BigDecimal> of(List<BigDecimal> amounts, BigDecimal total) {
    if (amounts.isEmpty()) {
      return List.of();
    }
    List<BigDecimal> sure = amounts.stream().map(Apportionment::sure).toList();
    List<BigDecimal> shares = new ArrayList<>();
    sure.forEach(amount -> shares.add(amount.setScale(CENTS, RoundingMode.FLOOR)));
    BigDecimal given = shares.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
    BigInteger missing = total.subtract(given).movePointRight(CENTS).toBigIntegerExact();
    BigInteger count = BigInteger.valueOf(shares.size());
    int extra = missing.mod(count).intValue();
    BigDecimal each =
        new BigDecimal(missing.subtract(BigInteger.valueOf(extra)).divide(count), CENTS);
    Comparator<Integer> first =
        Comparator.comparing((Integer i) -> sure.get(i).subtract(shares.get(i)))
            .thenComparing(i -> sure.get(i).abs())
            .reversed();
    List<Integer> order = IntStream.range(0, shares.size()).boxed().sorted(first).toList();
    for (int n = 0; n < order.size(); n++) {
      BigDecimal more = n < extra ? each.add(BigDecimal.valueOf(1, CENTS)) : each;
      shares.set(order.get(n), shares.get(order.get(n)).add(more));
    }
    return shares;
  }

  private static BigDecimal sure(BigDecimal amount) {
    return amount.setScale(SURE_PLACES, RoundingMode.HALF_EVEN);
  }
}
