package clinic.stimshelf.calc.consumption;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * A split as it is shown: packs in hundredths, money in whole cents, and everything that is shown
 * adds up.
 *
 * @param packs of packs
 * @param cost of money
 */
public record Statement(Column packs, Column cost) {

  /**
   * From before to now.
   *
   * @param parts by cause; their sum is the difference exactly
   */
  public record Column(BigDecimal before, BigDecimal now, Map<Cause, BigDecimal> parts) {

    public BigDecimal difference() {
      return now.subtract(before);
    }

    public BigDecimal part(Cause cause) {
      return parts.getOrDefault(cause, BigDecimal.ZERO);
    }
  }

  /** Before and now rounded, the parts by largest remainder. */
  public static Statement of(Split split) {
    return new Statement(
        column(split, Split.Amount::packs, split.packs(), List.of(Cause.values()).subList(0, 3)),
        column(split, Split.Amount::cost, split.costs(), List.of(Cause.values())));
  }

  /**
   * The rows that a total is made of, in their order. What stands in a row adds up, and each column
   * adds up to the total's. Only in a row's last column, which is reckoned from the others, can the
   * roundings of a row come together.
   */
  public static List<Statement> rows(List<Split> splits) {
    Statement total = of(splits.stream().reduce(Split.none(), Split::plus));
    List<Column> packs = columns(splits, Split.Amount::packs, Split::packs, total.packs);
    List<Column> costs = columns(splits, Split.Amount::cost, Split::costs, total.cost);
    List<Statement> rows = new ArrayList<>();
    for (int i = 0; i < splits.size(); i++) {
      rows.add(new Statement(packs.get(i), costs.get(i)));
    }
    return rows;
  }

  private static Column column(
      Split split,
      Function<Split.Amount, BigDecimal> what,
      Map<Cause, BigDecimal> exact,
      List<Cause> causes) {
    BigDecimal before = Apportionment.round(what.apply(split.before()));
    BigDecimal now = Apportionment.round(what.apply(split.now()));
    List<BigDecimal> shares =
        Apportionment.of(causes.stream().map(exact::get).toList(), now.subtract(before));
    Map<Cause, BigDecimal> parts = new EnumMap<>(Cause.class);
    for (int i = 0; i < shares.size(); i++) {
      parts.put(causes.get(i), shares.get(i));
    }
    return new Column(before, now, parts);
  }

  private static List<Column> columns(
      List<Split> splits,
      Function<Split.Amount, BigDecimal> what,
      Function<Split, Map<Cause, BigDecimal>> exact,
      Column total) {
    List<BigDecimal> before =
        Apportionment.of(
            splits.stream().map(split -> what.apply(split.before())).toList(), total.before);
    List<Map<Cause, BigDecimal>> parts = new ArrayList<>();
    splits.forEach(split -> parts.add(new EnumMap<>(Cause.class)));
    total.parts.forEach(
        (cause, sum) -> {
          List<BigDecimal> shares =
              Apportionment.of(
                  splits.stream().map(split -> exact.apply(split).get(cause)).toList(), sum);
          for (int i = 0; i < shares.size(); i++) {
            parts.get(i).put(cause, shares.get(i));
          }
        });
    List<Column> columns = new ArrayList<>();
    for (int i = 0; i < splits.size(); i++) {
      BigDecimal now = parts.get(i).values().stream().reduce(before.get(i), BigDecimal::add);
      columns.add(new Column(before.get(i), now, parts.get(i)));
    }
    return columns;
  }
}
