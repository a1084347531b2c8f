package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Statement;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;

/**
 * Where packs went in a period, against a plan or an earlier period.
 *
 * @param before the earlier period; {@code null} against the plan
 * @param total everything together
 * @param now sessions and measures of the period
 * @param then the same of the earlier period; {@code null} against the plan
 * @param by the total again, by who and what
 * @param reasons the largest contributions to each step
 * @param drawer packs taken outside of programs, by reason
 * @param shelf packs that left the cupboard in other ways
 */
public record ConsumptionView(
    Period period,
    Against against,
    Period before,
    Statement total,
    Measures now,
    Measures then,
    List<Table> by,
    Map<Cause, List<Reason>> reasons,
    List<Aside> drawer,
    List<Aside> shelf) {

  /**
   * @param noEntry planned sessions of which nothing is known; they count as not done
   * @param noEntryPacks packs these would be worth
   * @param packsPer100 packs for 100 sessions done, {@code null} where none was
   * @param completed programs that came to their planned end
   * @param costPerCompleted what the packs of one of them cost from first to last, {@code null}
   *     where none was completed
   */
  public record Measures(
      int planned,
      int done,
      int noEntry,
      BigDecimal noEntryPacks,
      BigDecimal packsPer100,
      int completed,
      BigDecimal costPerCompleted) {}

  /**
   * The total by one thing.
   *
   * @param key for files and calls
   * @param what in a heading
   */
  public record Table(String key, String what, List<Row> rows) {}

  /**
   * @param sessions done; {@code null} where they cannot be told apart
   * @param packsPer100 packs for 100 of them, {@code null} with it
   */
  public record Row(
      String label, String small, Integer sessions, BigDecimal packsPer100, Statement statement) {}

  /**
   * A contribution to a step.
   *
   * @param name of the patient, or {@code null}
   * @param href where to look further, or {@code null}
   */
  public record Reason(
      String name, String href, String what, String how, BigDecimal packs, BigDecimal cost) {}

  /** Packs beside the programs. */
  public record Aside(String reason, String words, long packs, BigDecimal cost) {}
}
