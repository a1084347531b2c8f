package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.CsvSheet;
import clinic.stimshelf.web.SpreadsheetCell;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

/** Files as spreadsheets write them. Quoting and line ends: RFC 4180, sections 2.1 to 2.7. */
class CsvTextTest {

  @Test
  void readsCommasWithoutAMark() {
    assertThat(lines("a,b\r\n1,2\r\n")).containsExactly(List.of("a", "b"), List.of("1", "2"));
  }

  @Test
  void readsSemicolonsBehindAByteOrderMark() {
    assertThat(lines("\uFEFFa;b\n1;\"2,5\"\n"))
        .containsExactly(List.of("a", "b"), List.of("1", "2,5"));
  }

  @Test
  void readsTabsAndTheHintOfTheSpreadsheet() {
    assertThat(lines("a\tb\n1\t2")).containsExactly(List.of("a", "b"), List.of("1", "2"));
    assertThat(lines("sep=;\na;b\n1;2")).containsExactly(List.of("a", "b"), List.of("1", "2"));
  }

  @Test
  void readsQuotedLineEndsSeparatorsAndQuotes() {
    assertThat(lines("a,b\r\n\"x\r\ny\",\"say \"\"hi\"\", now\"\r\n"))
        .containsExactly(List.of("a", "b"), List.of("x\r\ny", "say \"hi\", now"));
  }

  @Test
  void countsLinesAsAnEditorDoesAlsoAfterAQuotedLineEnd() {
    List<Long> numbers = new ArrayList<>();
    CsvText.of("t.csv", bytes("a,b\n\"x\ny\",1\n\n2,3\n"))
        .forEachLine(line -> numbers.add(line.number()));
    assertThat(numbers).containsExactly(1L, 2L, 5L);
  }

  @Test
  void namesTheLineThatIsNotUtf8() {
    byte[] latin = "name\nAnna\nJos\u00e9\n".getBytes(StandardCharsets.ISO_8859_1);
    assertThatThrownBy(() -> CsvText.of("staff.csv", latin))
        .isInstanceOfSatisfying(
            CsvText.Unreadable.class,
            unreadable -> {
              assertThat(unreadable.fault.line()).isEqualTo(3);
              assertThat(unreadable.fault.says()).contains("CSV UTF-8");
            });
  }

  @Test
  void refusesUtf16AndEmptyFiles() {
    assertThatThrownBy(() -> CsvText.of("t.csv", "a,b\n1,2".getBytes(Charset.forName("UTF-16"))))
        .isInstanceOf(CsvText.Unreadable.class);
    assertThatThrownBy(() -> CsvText.of("t.csv", new byte[0]))
        .isInstanceOf(CsvText.Unreadable.class)
        .hasMessageContaining("empty");
  }

  @Test
  void refusesAQuoteThatNeverEnds() {
    assertThatThrownBy(() -> lines("a,b\n\"x,1\n2,3\n"))
        .isInstanceOf(CsvText.Unreadable.class)
        .hasMessageContaining("quoted");
  }

  @Test
  void writesNoCellThatASpreadsheetRunsAsAFormula() {
    List<String> live =
        List.of(
            "=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx", "\nx", "＝1", "'=1", "=cmd|' /C calc'!A0");
    String text = new String(written(List.of(live)), StandardCharsets.UTF_8);
    for (List<String> cells : lines(text)) {
      assertThat(cells).allSatisfy(cell -> assertThat(cell).startsWith("'"));
    }
  }

  @Test
  void leavesHarmlessCellsAsTheyAre() {
    assertThat(SpreadsheetCell.guarded("O'Neil")).isEqualTo("O'Neil");
    assertThat(SpreadsheetCell.guarded("'tis")).isEqualTo("'tis");
    assertThat(SpreadsheetCell.unguarded("'tis")).isEqualTo("'tis");
    assertThat(SpreadsheetCell.guarded("w-3.2")).isEqualTo("w-3.2");
  }

  @Property
  void whatIsWrittenReadsBack(@ForAll @Size(min = 1, max = 6) List<String> cells) {
    List<String> kept = cells.stream().map(CsvTextTest::storable).toList();
    List<List<String>> rows = List.of(List.of("a", "b", "c", "d", "e", "f"), kept);
    List<List<String>> read =
        lines(new String(written(rows), StandardCharsets.UTF_8)).stream()
            .map(line -> line.stream().map(SpreadsheetCell::unguarded).toList())
            .toList();
    if (kept.equals(List.of(""))) {
      assertThat(read).hasSizeBetween(1, 2);
    } else {
      assertThat(read.get(1)).isEqualTo(kept);
    }
  }

  /** Lone halves of a surrogate pair are no text and have no UTF-8. */
  private static String storable(String text) {
    return new String(text.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8);
  }

  private static List<List<String>> lines(String text) {
    List<List<String>> lines = new ArrayList<>();
    CsvText.of("t.csv", bytes(text)).forEachLine(line -> lines.add(line.cells()));
    return lines;
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] written(List<List<String>> rows) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (CsvSheet sheet = new CsvSheet(out)) {
      rows.forEach(sheet::line);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return out.toByteArray();
  }
}
