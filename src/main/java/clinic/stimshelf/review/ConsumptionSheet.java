package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Statement;
import clinic.stimshelf.web.CsvSheet;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A consumption review as a file for a spreadsheet; it names no patient. */
final class ConsumptionSheet {
  private static final List<String> HEADER =
      List.of(
          "by",
          "what",
          "code",
          "from",
          "to",
          "against",
          "sessions_done",
          "packs_before",
          "packs_sessions",
          "packs_wear",
          "packs_waste",
          "packs_used",
          "cost_before",
          "cost_sessions",
          "cost_wear",
          "cost_waste",
          "cost_price",
          "cost_used");

  private ConsumptionSheet() {}

  static byte[] of(ConsumptionView view) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (CsvSheet sheet = new CsvSheet(bytes)) {
      sheet.line(HEADER);
      sheet.line(line(view, "total", "", null, view.now().done(), view.total()));
      view.by()
          .forEach(
              table ->
                  table
                      .rows()
                      .forEach(
                          row ->
                              sheet.line(
                                  line(
                                      view,
                                      table.key(),
                                      row.label(),
                                      row.small(),
                                      row.sessions(),
                                      row.statement()))));
      view.drawer().forEach(one -> sheet.line(aside(view, "drawer", one)));
      view.shelf().forEach(one -> sheet.line(aside(view, "shelf", one)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static List<Object> line(
      ConsumptionView view,
      String by,
      String what,
      String code,
      Integer sessions,
      Statement statement) {
    List<Object> cells = head(view, by, what, code);
    cells.add(sessions == null ? null : BigDecimal.valueOf(sessions));
    cells.add(statement.packs().before());
    for (Cause cause : List.of(Cause.SESSIONS, Cause.WEAR, Cause.WASTE)) {
      cells.add(statement.packs().part(cause));
    }
    cells.add(statement.packs().now());
    cells.add(statement.cost().before());
    for (Cause cause : Cause.values()) {
      cells.add(statement.cost().part(cause));
    }
    cells.add(statement.cost().now());
    return cells;
  }

  private static List<Object> aside(ConsumptionView view, String by, ConsumptionView.Aside one) {
    List<Object> cells = head(view, by, one.words(), one.reason());
    cells.addAll(Arrays.asList(null, null, null, null, null));
    cells.add(BigDecimal.valueOf(one.packs()));
    cells.addAll(Arrays.asList(null, null, null, null, null));
    cells.add(one.cost());
    return cells;
  }

  private static List<Object> head(ConsumptionView view, String by, String what, String code) {
    return new ArrayList<>(
        Arrays.asList(
            by,
            what,
            code,
            view.period().from(),
            view.period().to(),
            view.before() == null ? "plan" : view.before().from() + " to " + view.before().to()));
  }
}
