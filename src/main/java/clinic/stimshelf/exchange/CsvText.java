package clinic.stimshelf.exchange;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Consumer;

/**
 * The text of a CSV file: UTF-8 with or without a byte order mark, cells parted by commas,
 * semicolons or tabs (whichever the header uses), quoted as Excel does it.
 */
final class CsvText {
  private static final char BOM = '\uFEFF';

  private final String name;
  private final String text;
  private final char separator;
  private final int firstLine;

  private CsvText(String name, String text, char separator, int firstLine) {
    this.name = name;
    this.text = text;
    this.separator = separator;
    this.firstLine = firstLine;
  }

  /** A line of cells with its number in the file. */
  record Line(long number, List<String> cells) {}

  /** The file cannot be read at all, or not from some line on. */
  static final class Unreadable extends RuntimeException {
    final transient Fault fault;

    Unreadable(String file, long line, String says) {
      super(says);
      this.fault = new Fault(file, line, "", "", says);
    }
  }

  /**
   * @throws Unreadable if the bytes are not UTF-8 or there is no header
   */
  static CsvText of(String name, byte[] bytes) {
    String text = decode(name, bytes);
    if (!text.isEmpty() && text.charAt(0) == BOM) {
      text = text.substring(1);
    }
    String header = text.lines().findFirst().orElse("");
    int firstLine = 1;
    char separator = separator(header);
    if (header.length() == 5 && header.startsWith("sep=")) {
      // Excel's own hint, which stands before the header.
      separator = header.charAt(4);
      text = text.substring(text.indexOf('\n') + 1);
      firstLine = 2;
    }
    if (text.isBlank()) {
      throw new Unreadable(name, 0, "The file is empty. Its first line must name the columns.");
    }
    return new CsvText(name, text, separator, firstLine);
  }

  /** Lines in the file, as a rough measure of how much there is to do. */
  long roughLines() {
    return text.chars().filter(c -> c == '\n').count() + 1;
  }

  /** Hands over the lines that are not empty, the header first. */
  void forEachLine(Consumer<Line> taker) {
    try (CsvReader<CsvRecord> reader =
        CsvReader.builder()
            .fieldSeparator(separator)
            .quoteCharacter('"')
            .commentStrategy(CommentStrategy.NONE)
            .skipEmptyLines(true)
            .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
            .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
            .allowExtraCharsAfterClosingQuote(false)
            .allowUnclosedQuote(false)
            .ofCsvRecord(text)) {
      for (CsvRecord record : reader) {
        taker.accept(new Line(record.getStartingLineNumber() + firstLine - 1, record.getFields()));
      }
    } catch (CsvParseException torn) {
      throw new Unreadable(
          name, 0, "A quoted cell does not end where it should: " + torn.getMessage());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static char separator(String header) {
    char best = ',';
    long most = count(header, ',');
    for (char candidate : new char[] {';', '\t'}) {
      if (count(header, candidate) > most) {
        best = candidate;
        most = count(header, candidate);
      }
    }
    return best;
  }

  private static long count(String text, char wanted) {
    return text.chars().filter(c -> c == wanted).count();
  }

  private static String decode(String name, byte[] bytes) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length + 1);
    CoderResult result = decoder.decode(in, out, true);
    try {
      if (result.isError()) {
        result.throwException();
      }
    } catch (CharacterCodingException notUtf8) {
      long line = 1;
      for (int i = 0; i < in.position(); i++) {
        line += bytes[i] == '\n' ? 1 : 0;
      }
      throw new Unreadable(
          name, line, "This is not UTF-8 text. Save the sheet as “CSV UTF-8” and try again.");
    }
    return out.flip().toString();
  }
}
