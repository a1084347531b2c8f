package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Split;
import clinic.stimshelf.calc.consumption.Use;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.program.Course;
import clinic.stimshelf.review.Consumption.Cell;
import clinic.stimshelf.review.ConsumptionView.Reason;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The programs, or against an earlier period the pad types, that made a step as large as it is. */
final class ConsumptionReasons {
  private static final int SHOWN = 6;

  private final Consumption.Names names;

  private final Period period;

  ConsumptionReasons(Consumption.Names names, Period period) {
    this.names = names;
    this.period = period;
  }

  private record Line(Long programId, String padCode) {}

  private record Sum(Course course, String padCode, Use before, Use now, Split split) {
    Sum plus(Sum other) {
      return new Sum(
          course, padCode, before.plus(other.before), now.plus(other.now), split.plus(other.split));
    }
  }

  Map<Cause, List<Reason>> of(List<Cell> cells, boolean plan) {
    Map<Line, Sum> lines = new LinkedHashMap<>();
    for (Cell cell : cells) {
      lines.merge(
          new Line(plan ? cell.key().programId() : null, cell.key().padCode()),
          new Sum(
              plan ? cell.course() : null,
              cell.key().padCode(),
              cell.before(),
              cell.now(),
              cell.split()),
          Sum::plus);
    }
    Map<Cause, List<Reason>> reasons = new EnumMap<>(Cause.class);
    for (Cause cause : Cause.values()) {
      List<Sum> most = new ArrayList<>(lines.values());
      most.removeIf(sum -> sum.split().costs().get(cause).abs().doubleValue() < 0.005);
      most.sort(Comparator.comparing((Sum sum) -> sum.split().costs().get(cause).abs()).reversed());
      reasons.put(cause, most.stream().limit(SHOWN).map(sum -> reason(cause, sum, plan)).toList());
    }
    return reasons;
  }

  private Reason reason(Cause cause, Sum sum, boolean plan) {
    PadTypeView type = names.pads().get(sum.padCode());
    String pads = type == null ? sum.padCode() : type.name();
    Course course = sum.course();
    boolean program = course != null;
    String what =
        program ? (course.template() == null ? pads : course.template() + ", " + pads) : pads;
    return new Reason(
        program ? names.patients().get(course.patientId()) : null,
        program ? "/programs/" + course.programId() : null,
        plan && !program ? pads + ", no program known" : what,
        how(cause, sum, plan),
        sum.split().packs().get(cause).setScale(2, RoundingMode.HALF_EVEN),
        sum.split().costs().get(cause).setScale(2, RoundingMode.HALF_EVEN));
  }

  private String how(Cause cause, Sum sum, boolean plan) {
    Use now = sum.now();
    Use before = sum.before();
    return switch (cause) {
      case SESSIONS ->
          plan && sum.course() != null
              ? sum.course().done() + " of " + sum.course().planned() + " planned sessions done"
              : "sessions worth "
                  + packs(before.worth())
                  + " packs before, "
                  + packs(now.worth())
                  + " now, at the planned uses";
      case WEAR ->
          plan
              ? packs(now.packs().subtract(now.waste()))
                  + " packs for sessions worth "
                  + packs(now.worth())
                  + lasted(sum)
              : each(before)
                  + " packs used for each the sessions were worth before, "
                  + each(now)
                  + " now";
      case WASTE ->
          "worth "
              + packs(now.waste())
              + " packs lost or thrown away early"
              + (plan ? "" : ", " + packs(before.waste()) + " before");
      case PRICE ->
          packs(now.packs())
              + " packs at "
              + price(now)
              + " each instead of "
              + (before.packs().signum() > 0 ? price(before) : "the list price");
    };
  }

  /** U1 = S1·m/(A − W), said in the sessions of a set; of a program cut in two it says nothing. */
  private String lasted(Sum sum) {
    BigDecimal used = sum.now().packs().subtract(sum.now().waste());
    if (sum.course() == null || used.signum() <= 0 || sum.now().worth().signum() == 0) {
      return "";
    }
    if (sum.course().startsOn().isBefore(period.from())
        || sum.course().lastOn().isAfter(period.to())) {
      return "; the program reaches beyond these days";
    }
    return sum.course().lines().stream()
        .filter(line -> line.padCode().equals(sum.padCode()))
        .findFirst()
        .map(
            line ->
                ", "
                    + sum.now()
                        .worth()
                        .multiply(BigDecimal.valueOf(line.usesPerSet()))
                        .divide(used, 1, RoundingMode.HALF_EVEN)
                    + " sessions a set instead of "
                    + line.usesPerSet())
        .orElse("");
  }

  private static String each(Use use) {
    return Split.rate(use).setScale(2, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static String price(Use use) {
    return Split.price(use, BigDecimal.ZERO).setScale(2, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static String packs(BigDecimal packs) {
    return packs.setScale(1, RoundingMode.HALF_EVEN).toPlainString();
  }
}
