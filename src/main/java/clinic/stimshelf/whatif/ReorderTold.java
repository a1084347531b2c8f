package clinic.stimshelf.whatif;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.whatif.ReorderQuestion.ReorderAnswer;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** When to order, asked by a form and told in words. */
final class ReorderTold {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final Bound PER_DAY = Bound.AMOUNT;
  private static final int MOST = 100;

  /** What other promises would take, of 100; the one asked for is added. */
  private static final List<BigDecimal> PROMISES =
      List.of(
          new BigDecimal("80"),
          new BigDecimal("90"),
          new BigDecimal("95"),
          new BigDecimal("98"),
          new BigDecimal("99"),
          new BigDecimal("99.9"));

  private static final Map<String, String> FIELDS =
      Map.of(
          "demand", "packsPerDay",
          "leadTimeDays", "leadDays",
          "target", "level",
          "holdingCostPerPackYear", "holdingCost");

  private ReorderTold() {}

  /** The answer, or null where the form says what is wrong. */
  static Told of(Form form) {
    Typed typed = new Typed(form);
    ObjectNode demand = demand(form, typed);
    lead(form, typed);
    typed.optional("reviewDays", "Days between two looks", Bound.SPAN);
    BigDecimal level = typed.share("level", "The promise");
    String kind = form.value("promise").equals("fill") ? "fill" : "cycle";
    typed
        .optional("orderQuantity", "Packs an order", Bound.AMOUNT_ABOVE_0)
        .optional("orderCost", "What an order costs", Bound.AMOUNT)
        .optional("packsPerCase", "Packs a case", Bound.COUNT_FROM_1)
        .optional("minimumOrder", "Smallest order", Bound.COUNT);
    BigDecimal holding =
        typed.read("holdingCost", "What keeping a pack a year costs", Bound.AMOUNT);
    if (holding != null && holding.signum() > 0) {
      typed.question().put("holdingCostPerPackYear", holding);
    }
    if (!form.ok()) {
      return null;
    }
    typed.question().set("demand", demand);
    target(typed, kind, level);
    ReorderAnswer answer = typed.answer(ReorderQuestion::answer, FIELDS);
    return answer == null ? null : told(typed, kind, level, answer);
  }

  private static void target(Typed typed, String kind, BigDecimal level) {
    typed.question().putObject("target").put("kind", kind).put("value", level);
  }

  private static ObjectNode demand(Form form, Typed typed) {
    ObjectNode demand = JSON.objectNode();
    if (!form.has("packsPerDay")) {
      form.wrong("packsPerDay", "Packs a day are missing: " + PER_DAY.words() + ".");
    }
    BigDecimal mean = typed.read("packsPerDay", "Packs a day", PER_DAY);
    if (mean != null) {
      demand.put("meanPerDay", mean);
    }
    if (!form.has("takings")) {
      return demand.put("kind", "poisson");
    }
    demand.put("kind", "compound-poisson");
    List<BigDecimal[]> sizes = new ArrayList<>();
    try {
      for (String part : form.value("takings").split("[\\s,;]+")) {
        String[] pair = part.split("[×x*]");
        BigDecimal times = pair.length == 2 ? new BigDecimal(pair[1]) : BigDecimal.ONE;
        BigDecimal packs = new BigDecimal(pair[0]);
        if (pair.length > 2
            || !ReorderQuestion.BATCH.allows(packs)
            || !Bound.COUNT_FROM_1.allows(times)) {
          throw new IllegalArgumentException("part");
        }
        sizes.add(new BigDecimal[] {packs, times});
      }
      if (sizes.size() > MOST) {
        throw new IllegalArgumentException("many");
      }
    } catch (IllegalArgumentException unreadable) {
      form.wrong(
          "takings",
          "Packs at a time are numbers from 1 to 1000, each with how often, such as 1×40 2×13; at"
              + " most 100 of them.");
      return demand;
    }
    shares(demand.putArray("batchSizes"), "packs", sizes);
    return demand;
  }

  private static void lead(Form form, Typed typed) {
    List<BigDecimal[]> days = new ArrayList<>();
    try {
      for (String part : form.value("leadDays").split("[\\s,;]+")) {
        BigDecimal each = new BigDecimal(part);
        if (!Bound.SPAN.allows(each)) {
          throw new IllegalArgumentException("part");
        }
        days.add(new BigDecimal[] {each, BigDecimal.ONE});
      }
      if (days.size() > MOST) {
        throw new IllegalArgumentException("many");
      }
    } catch (IllegalArgumentException unreadable) {
      form.wrong(
          "leadDays",
          "Days until delivery are "
              + Bound.SPAN.words()
              + ", or several of them with blanks between, such as 4 5 5 9; at most 100.");
      return;
    }
    shares(typed.question().putObject("leadTimeDays").putArray("outcomes"), "days", days);
  }

  /** Counts become probabilities; the last takes what rounding leaves. */
  private static void shares(ArrayNode list, String name, List<BigDecimal[]> counted) {
    BigDecimal all = counted.stream().map(c -> c[1]).reduce(BigDecimal.ZERO, BigDecimal::add);
    BigDecimal left = BigDecimal.ONE;
    for (int i = 0; i < counted.size(); i++) {
      BigDecimal share =
          i == counted.size() - 1
              ? left
              : counted.get(i)[1].divide(all, MathContext.DECIMAL64).min(left);
      left = left.subtract(share);
      list.addObject().put(name, counted.get(i)[0]).put("probability", share);
    }
  }

  private static Told told(Typed typed, String kind, BigDecimal level, ReorderAnswer answer) {
    String headline =
        "Order when " + Figures.number(answer.reorderPoint()) + " packs or fewer are left";
    List<String> lines = new ArrayList<>();
    lines.add(
        "Left means in the cupboard and on order, less what is owed. Until the next delivery after"
            + " that about "
            + Figures.number(answer.meanDemand())
            + " packs are used; "
            + (answer.safetyStock() >= 0
                ? Figures.number(answer.safetyStock()) + " are safety."
                : "this level holds less than that."));
    lines.add(
        "In "
            + Figures.of100(answer.chanceOfStockout())
            + " of 100 such spans the cupboard runs out; "
            + Figures.typed(answer.expectedShortPerCycle())
            + " packs are short on average.");
    if (answer.orderQuantity() != null) {
      lines.add(
          "Order "
              + Figures.number(answer.orderQuantity())
              + " packs at a time"
              + (answer.fillRate() == null
                  ? "."
                  : "; then "
                      + Figures.of100(Math.max(0, answer.fillRate()))
                      + " of 100 packs can be given at once."));
    }
    return compared(typed, kind, level, answer, headline, lines);
  }

  /** What each promise takes: the same question with other levels. */
  private static Told compared(
      Typed typed,
      String kind,
      BigDecimal level,
      ReorderAnswer own,
      String headline,
      List<String> lines) {
    TreeSet<BigDecimal> promises = new TreeSet<>();
    PROMISES.forEach(p -> promises.add(p.movePointLeft(2).stripTrailingZeros()));
    promises.add(level.stripTrailingZeros());
    List<Told.Row> rows = new ArrayList<>();
    List<Drawn.Point> points = new ArrayList<>();
    for (BigDecimal promise : promises) {
      boolean asked = promise.compareTo(level) == 0;
      ReorderAnswer at = own;
      if (!asked) {
        target(typed, kind, promise);
        at = ReorderQuestion.answer(typed.question());
      }
      points.add(new Drawn.Point(at.reorderPoint(), at.chanceOfStockout()));
      rows.add(
          new Told.Row(
              Figures.of100(promise.doubleValue()),
              List.of(
                  Figures.number(at.reorderPoint()),
                  Figures.number(at.safetyStock()),
                  Figures.of100(at.chanceOfStockout())),
              asked));
    }
    Drawn.Sheet sheet =
        new Drawn.Sheet(
            points.get(0).x(),
            points.get(points.size() - 1).x(),
            points.stream().mapToDouble(Drawn.Point::y).max().orElse(1));
    return new Told(
        headline,
        lines,
        new Drawn(
            sheet.straight(points),
            "",
            List.of(
                sheet.dot(
                    own.reorderPoint(),
                    own.chanceOfStockout(),
                    Figures.number(own.reorderPoint()) + " packs")),
            sheet.across(),
            sheet.top(),
            headline + "; a higher level runs out more rarely"),
        List.of("Promise, of 100", "Order at", "Safety", "Runs out, of 100"),
        rows);
  }
}
