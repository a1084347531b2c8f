package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.wear.LotComparison;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** Whether one pad lot is worse than the rest. */
final class LotsQuestion {
  static final String EXAMPLE =
      """
      {"lots": [{"lot": "A1", "failures": 3, "uses": 400}, {"lot": "A2", "failures": 14, "uses": 380}, \
      {"lot": "B1", "failures": 4, "uses": 510}], "alpha": 0.05}""";

  private LotsQuestion() {}

  /** As given, with what was found. */
  record LotsAnswer(List<LotFound> lots) {}

  /** A lot beside the others. */
  record LotFound(
      String lot,
      long failures,
      long uses,
      double ratePerThousand,
      double pValue,
      double adjustedPValue,
      boolean suspect) {}

  static LotsAnswer answer(JsonNode body) {
    return Question.answer(body, LotsQuestion::ask, Map.of());
  }

  private static Supplier<LotsAnswer> ask(Fields in) {
    List<Fields> entries = in.entries("lots", 1, Fields.MOST_ENTRIES);
    List<LotComparison.Lot> lots = new ArrayList<>();
    for (Fields each : entries) {
      String lot = each.text("lot");
      int failures = each.whole("failures", Bound.COUNT);
      int uses = each.whole("uses", Bound.COUNT_FROM_1);
      if (failures > uses) {
        each.wrong("failures", "is " + failures + ", but must be at most the uses, " + uses + ".");
      } else {
        lots.add(new LotComparison.Lot(lot, failures, uses));
      }
    }
    Fields.unique(entries, "lot");
    double alpha = in.number("alpha", Bound.PROBABILITY);
    return () -> of(LotComparison.of(lots, alpha));
  }

  private static LotsAnswer of(LotComparison found) {
    return new LotsAnswer(
        found.lots().stream()
            .map(
                each ->
                    new LotFound(
                        each.lot().lot(),
                        each.lot().failures(),
                        each.lot().uses(),
                        each.ratePerThousand(),
                        each.pValue(),
                        each.adjustedPValue(),
                        each.suspect()))
            .toList());
  }
}
