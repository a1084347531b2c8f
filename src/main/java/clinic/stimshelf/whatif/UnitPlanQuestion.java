package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.PlanUnit;
import clinic.stimshelf.calc.plan.Treatment;
import clinic.stimshelf.calc.plan.UnitPlan;
import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** Which unit for which treatment. */
final class UnitPlanQuestion {
  static final String EXAMPLE =
      """
      {"units": [{"id": "U1", "channels": 2}, {"id": "U2", "channels": 4}], \
      "treatments": [{"id": "T1", "start": "2026-03-04T09:00", "end": "2026-03-04T09:30", \
      "channels": 2, "keepWith": "P1"}, {"id": "T2", "start": "2026-03-04T09:15", \
      "end": "2026-03-04T09:45", "channels": 4}]}""";

  private static final LocalDateTime SOME_DAY = LocalDateTime.of(2026, 1, 1, 0, 0);

  private UnitPlanQuestion() {}

  /** Who gets which unit, who gets none, and whether it is proven that it cannot be done better. */
  record UnitPlanAnswer(
      List<UnitAssigned> assignments,
      List<String> unserved,
      int peak,
      int unitChanges,
      boolean servedProven,
      boolean changesProven) {}

  /** A treatment with its unit. */
  record UnitAssigned(String treatment, String unit) {}

  static UnitPlanAnswer answer(JsonNode body) {
    return Question.answer(body, UnitPlanQuestion::ask, Map.of());
  }

  private static Supplier<UnitPlanAnswer> ask(Fields in) {
    List<Fields> unitEntries = in.entries("units", 0, Fields.MOST_ENTRIES);
    List<PlanUnit> units =
        unitEntries.stream()
            .map(each -> new PlanUnit(each.text("id"), each.whole("channels", Bound.COUNT_FROM_1)))
            .toList();
    Fields.unique(unitEntries, "id");
    List<Fields> entries = in.entries("treatments", 1, Fields.MOST_ENTRIES);
    List<Treatment> treatments = new ArrayList<>();
    for (Fields each : entries) {
      String id = each.text("id");
      LocalDateTime start = time(each, "start");
      LocalDateTime end = time(each, "end");
      int channels = each.whole("channels", Bound.COUNT_FROM_1);
      String keepWith = each.optionalText("keepWith").orElse(null);
      if (start == null || end == null) {
        treatments.add(
            new Treatment(id, new Span<>(SOME_DAY, SOME_DAY.plusDays(1)), channels, keepWith));
      } else if (!end.isAfter(start)) {
        each.wrong("end", "is not after the start, but must be.");
      } else {
        treatments.add(new Treatment(id, new Span<>(start, end), channels, keepWith));
      }
    }
    Fields.unique(entries, "id");
    return () -> of(UnitPlan.of(units, treatments));
  }

  /** A local date-time, or null where it is none. */
  private static LocalDateTime time(Fields each, String name) {
    String text = each.text(name);
    if (text.isEmpty()) {
      return null;
    }
    try {
      return LocalDateTime.parse(text);
    } catch (DateTimeException unreadable) {
      each.wrong(name, "must be a local day and time such as 2026-03-04T09:30.");
      return null;
    }
  }

  private static UnitPlanAnswer of(UnitPlan plan) {
    return new UnitPlanAnswer(
        plan.assignments().stream()
            .map(each -> new UnitAssigned(each.treatment(), each.unit()))
            .toList(),
        plan.unserved(),
        plan.peak(),
        plan.unitChanges(),
        plan.servedProven(),
        plan.changesProven());
  }
}
