package clinic.stimshelf.calc;

import static java.util.Objects.requireNonNull;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.assertj.core.data.Offset;

/** Reads the check values under {@code checks/}; its README says where each comes from. */
public final class Checks {

  private Checks() {}

  /** All rows of a file, in its order. */
  public static List<Row> rows(String file) {
    try (var reader =
        new InputStreamReader(
            requireNonNull(Checks.class.getResourceAsStream("/checks/" + file), file),
            StandardCharsets.UTF_8)) {
      List<Row> rows = new ArrayList<>();
      for (NamedCsvRecord row : CsvReader.builder().ofNamedCsvRecord(reader)) {
        rows.add(new Row(row));
      }
      if (rows.isEmpty()) {
        throw new IllegalStateException(file + " is empty");
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * How far a computed value may lie from one that the file prints: half a unit of its last printed
   * digit, widened by a relative rounding error of the double arithmetic.
   */
  public static Offset<Double> asPrinted(String printed) {
    String digits = printed.toLowerCase(java.util.Locale.ROOT);
    int e = digits.indexOf('e');
    String mantissa = e < 0 ? digits : digits.substring(0, e);
    int exponent = e < 0 ? 0 : Integer.parseInt(digits.substring(e + 1));
    int point = mantissa.indexOf('.');
    int decimals = point < 0 ? 0 : mantissa.length() - point - 1;
    double value = Math.abs(Double.parseDouble(printed));
    return Offset.offset(0.5000001 * Math.pow(10, exponent - decimals) + 1e-12 * value);
  }

  /** One row of a check file. */
  public record Row(NamedCsvRecord csv) {

    public String text(String column) {
      return csv.getField(column);
    }

    public boolean has(String column) {
      return !text(column).isBlank();
    }

    public double number(String column) {
      return Double.parseDouble(text(column));
    }

    public int whole(String column) {
      return Integer.parseInt(text(column));
    }

    /** Space-separated numbers. */
    public double[] numbers(String column) {
      return Arrays.stream(text(column).trim().split("\\s+"))
          .mapToDouble(Double::parseDouble)
          .toArray();
    }
  }
}
