package clinic.stimshelf.web;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Writes a CSV file that a spreadsheet opens as it is: UTF-8 with its mark, no live formulas. */
public final class CsvSheet implements AutoCloseable {
  private final CsvWriter writer;

  public CsvSheet(OutputStream out) {
    try {
      out.write(new byte[] {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF});
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    writer =
        CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(out, StandardCharsets.UTF_8);
  }

  /** A line; numbers stand as they are, so that a spreadsheet reckons with negative ones too. */
  public void line(List<?> cells) {
    writer.writeRecord(cells.stream().map(CsvSheet::text).toList());
  }

  private static String text(Object cell) {
    if (cell instanceof BigDecimal number) {
      return number.toPlainString();
    }
    return cell == null ? "" : SpreadsheetCell.guarded(cell.toString());
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }
}
