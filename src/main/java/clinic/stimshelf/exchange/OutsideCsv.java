package clinic.stimshelf.exchange;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Reads another system's appointments from CSV: {@code id, chart, starts_at, minutes} and, if it
 * likes, {@code therapist, room, channels, state}, of which {@code cancelled} alone matters.
 */
final class OutsideCsv {
  private static final List<String> NEEDED = List.of("id", "chart", "starts_at", "minutes");

  private OutsideCsv() {}

  /**
   * @throws CsvText.Unreadable if it is no CSV, or lacks a column
   */
  static List<OutsideRow> read(String name, byte[] bytes, DayText days, ZoneId zone) {
    List<OutsideRow> rows = new ArrayList<>();
    Map<String, Integer> columns = new HashMap<>();
    CsvText.of(name, bytes)
        .forEachLine(
            line -> {
              if (columns.isEmpty()) {
                header(name, line, columns);
              } else {
                row(line, columns, days, zone, rows);
              }
            });
    return rows;
  }

  private static void header(String name, CsvText.Line line, Map<String, Integer> columns) {
    for (int i = 0; i < line.cells().size(); i++) {
      columns.put(line.cells().get(i).strip().toLowerCase(Locale.ROOT), i);
    }
    List<String> missing = NEEDED.stream().filter(one -> !columns.containsKey(one)).toList();
    if (!missing.isEmpty()) {
      throw new CsvText.Unreadable(
          name,
          line.number(),
          "The first line must name the columns " + String.join(", ", missing) + ".");
    }
  }

  private static void row(
      CsvText.Line line,
      Map<String, Integer> columns,
      DayText days,
      ZoneId zone,
      List<OutsideRow> rows) {
    String key = cell(line, columns, "id");
    String chart = cell(line, columns, "chart");
    if (key == null) {
      rows.add(
          OutsideRow.unreadable(
              "line " + line.number(), chart, "Line " + line.number() + " has no id."));
      return;
    }
    String state = cell(line, columns, "state");
    boolean cancelled = state != null && state.toLowerCase(Locale.ROOT).startsWith("cancel");
    String faulty = "starts_at";
    try {
      Instant start = days.moment(String.valueOf(cell(line, columns, "starts_at")), null, zone);
      faulty = "minutes";
      Integer minutes = Integer.valueOf(String.valueOf(cell(line, columns, "minutes")));
      faulty = "channels";
      String channels = cell(line, columns, "channels");
      rows.add(
          new OutsideRow(
              key,
              chart,
              start,
              minutes,
              cell(line, columns, "therapist"),
              cell(line, columns, "room"),
              channels == null ? null : Integer.valueOf(channels),
              cancelled,
              null));
    } catch (RuntimeException unreadable) {
      rows.add(
          OutsideRow.unreadable(
              key,
              chart,
              "“" + cell(line, columns, faulty) + "” cannot be read as " + faulty + "."));
    }
  }

  private static String cell(CsvText.Line line, Map<String, Integer> columns, String name) {
    Integer at = columns.get(name);
    String text = at == null || at >= line.cells().size() ? "" : line.cells().get(at).strip();
    return text.isEmpty() ? null : text;
  }
}
