package clinic.stimshelf.review;

import clinic.stimshelf.calc.pool.LendingPool;
import clinic.stimshelf.loans.PastPromises;
import clinic.stimshelf.web.CsvSheet;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;

/** The pool page as a file for a spreadsheet, a number a line; it names no patient. */
final class PoolSheet {
  private static final List<String> HEADER = List.of("kind", "about", "what", "measure", "value");

  private PoolSheet() {}

  static byte[] of(PoolView view) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (CsvSheet sheet = new CsvSheet(bytes)) {
      sheet.line(HEADER);
      view.kinds().forEach(kind -> write(sheet, kind));
      for (PoolView.Channel one : view.channels()) {
        line(sheet, "", "channel", one.words(), "loans_due", one.due());
        line(sheet, "", "channel", one.words(), "loans_late", one.late());
        line(sheet, "", "channel", one.words(), "middle_days_late", one.middleDaysLate());
      }
      for (UnitsView.Failing one : view.failing()) {
        line(sheet, one.kind(), "unit", one.tag(), "faults", one.faults());
        line(sheet, one.kind(), "unit", one.tag(), "sessions", one.sessions());
      }
      for (PastPromises.Promised one : view.promises().promised()) {
        line(sheet, one.kind(), "promise", one.asked(), "promised_on", one.on());
        line(sheet, one.kind(), "promise", one.asked(), "chance", one.chance());
        line(sheet, one.kind(), "promise", one.asked(), "ready_on", one.came());
        line(sheet, one.kind(), "promise", one.asked(), "kept", one.kept() ? "yes" : "no");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void write(CsvSheet sheet, PoolView.OfKind of) {
    String kind = of.lending().kind();
    line(sheet, kind, "kind", "", "requests_per_week", of.lending().requestsPerWeek());
    line(sheet, kind, "kind", "", "mean_days_away", of.lending().meanDaysAway());
    line(sheet, kind, "kind", "", "turnaround_days", of.turnaroundDays());
    line(sheet, kind, "kind", "", "units_owned", of.lending().units());
    line(sheet, kind, "kind", "", "offered_load", of.pool().offeredLoad());
    line(sheet, kind, "kind", "", "units_for_goal", of.pool().unitsForTarget());
    line(sheet, kind, "kind", "", "price", of.price());
    for (LendingPool.Point point : of.pool().curve()) {
      line(sheet, kind, "units", point.units(), "turned_away", point.turnedAway());
      line(
          sheet,
          kind,
          "units",
          point.units(),
          "must_wait",
          point.mustWait().isPresent() ? point.mustWait().getAsDouble() : null);
    }
    for (PoolView.Month month : of.months()) {
      line(sheet, kind, "month", month.month(), "loans_begun", month.begun());
      line(sheet, kind, "month", month.month(), "units_away", month.away());
      line(sheet, kind, "month", month.month(), "units_owned", month.owned());
    }
  }

  private static void line(
      CsvSheet sheet, String kind, String about, Object what, String measure, Object value) {
    sheet.line(
        Arrays.asList(
            kind,
            about,
            what,
            measure,
            value instanceof Double number
                ? new BigDecimal(number).round(new MathContext(10))
                : value instanceof Number number ? new BigDecimal(number.toString()) : value));
  }
}
