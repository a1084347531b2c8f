package clinic.stimshelf.outcomes;

import clinic.stimshelf.calc.outcome.Girth;
import clinic.stimshelf.calc.outcome.Symmetry;
import clinic.stimshelf.people.Side;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Locale;

/**
 * A measurement as people and scripts see it.
 *
 * @param symmetryPercent limb symmetry index, {@code null} where the measure has none
 * @param differenceCm girth of the other side less the involved one's, {@code null} with it
 * @param reached whether the index has come to the location's own threshold
 */
public record OutcomeView(
    String id,
    String programId,
    Measure measure,
    Side side,
    String what,
    BigDecimal involved,
    BigDecimal uninvolved,
    String unit,
    Double symmetryPercent,
    Double differenceCm,
    Boolean reached,
    String note,
    Instant happenedAt,
    Instant recordedAt,
    String lateReason,
    Instant voidedAt,
    String voidReason) {

  static OutcomeView of(OutcomeNote row, Threshold threshold) {
    Symmetry symmetry = null;
    Girth girth = null;
    if (row.measure.kind() == Measure.Kind.SYMMETRY) {
      symmetry =
          Symmetry.of(
              row.involved.doubleValue(), row.uninvolved.doubleValue(), row.measure.lessIsBetter());
    } else if (row.measure.kind() == Measure.Kind.GIRTH) {
      girth = Girth.of(row.involved.doubleValue(), row.uninvolved.doubleValue());
    }
    return new OutcomeView(
        String.valueOf(row.id),
        row.programId == null ? null : String.valueOf(row.programId),
        row.measure,
        row.side,
        row.what,
        row.involved.stripTrailingZeros(),
        row.uninvolved == null ? null : row.uninvolved.stripTrailingZeros(),
        row.measure.unit(),
        symmetry == null ? null : symmetry.percent(),
        girth == null ? null : girth.difference(),
        symmetry == null ? null : symmetry.reached(threshold.percent(), threshold.exactlyCounts()),
        row.note,
        row.happenedAt,
        row.recordedAt,
        row.lateReason,
        row.voidedAt,
        row.voidReason);
  }

  /** What is followed over time: the index, the difference, or the level. */
  double figure() {
    return symmetryPercent != null
        ? symmetryPercent
        : differenceCm != null ? differenceCm : involved.doubleValue();
  }

  /** Both sides, as a table says them. */
  public String values() {
    String own = involved.toPlainString();
    if (uninvolved == null) {
      return own + " " + unit;
    }
    String both = own + " / " + uninvolved.toPlainString() + " " + unit;
    return differenceCm == null
        ? both
        : both
            + String.format(
                Locale.US,
                " (%.1f / %.1f in)",
                Girth.inches(involved.doubleValue()),
                Girth.inches(uninvolved.doubleValue()));
  }

  /** What comes of them, in words. */
  public String result() {
    if (symmetryPercent != null) {
      return String.format(Locale.US, "%.1f %%", symmetryPercent);
    }
    if (differenceCm != null) {
      return String.format(
          Locale.US, "%.1f cm (%.1f in)", differenceCm, Girth.inches(differenceCm));
    }
    return involved.toPlainString() + " " + unit;
  }
}
