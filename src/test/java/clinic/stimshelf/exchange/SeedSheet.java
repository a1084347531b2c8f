package clinic.stimshelf.exchange;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** One file of the demo while it is made. */
final class SeedSheet {
  private final String what;
  private final List<String> header;
  private final List<List<String>> rows = new ArrayList<>();

  SeedSheet(String what, String... header) {
    this.what = what;
    this.header = List.of(header);
  }

  /** Adds a row, its cells in the order of the header; {@code null} leaves one empty. */
  void row(Object... cells) {
    if (cells.length != header.size()) {
      throw new IllegalArgumentException(
          what + " takes " + header.size() + " cells, not " + cells.length);
    }
    rows.add(Arrays.stream(cells).map(cell -> cell == null ? "" : cell.toString()).toList());
  }

  int size() {
    return rows.size();
  }

  void writeTo(Path folder) throws IOException {
    Files.createDirectories(folder);
    try (CsvWriter writer =
        CsvWriter.builder()
            .lineDelimiter(LineDelimiter.LF)
            .build(folder.resolve(what + ".csv"), StandardCharsets.UTF_8)) {
      writer.writeRecord(header);
      rows.forEach(writer::writeRecord);
    }
  }
}
