package clinic.stimshelf.codes.labels;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.web.ConfigFiles;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;

class LabelStockTest {

  private static final LabelStock LETTER_30 =
      new LabelStock("letter-30", "Sheet", LabelStock.Page.LETTER, 66.7, 25.4, 3, 10, 3.1, 0, 0, 0);

  @Test
  void everySizeOfTheShippedFileTakesATagInBothSymbolsOrAtLeastAsASquare() throws IOException {
    LabelStocks stocks = shipped();
    assertThat(stocks.labels()).hasSize(8);
    Tag tag = Tag.next(Tag.Kind.UNIT, 122);
    for (LabelStock stock : stocks.labels()) {
      assertThat(LabelDrawing.widestX(Label.of(tag, SymbolKind.DATA_MATRIX), stock.size()))
          .as(stock.key())
          .isPresent();
      // 143 modules of 0.25 mm with their quiet zones do not fit on 25 mm.
      assertThat(LabelDrawing.widestX(Label.of(tag, SymbolKind.CODE_128), stock.size()).isPresent())
          .as(stock.key())
          .isEqualTo(!stock.key().equals("roll-25x25"));
    }
  }

  @Test
  void whatIsDrawnIsReadBackInEverySizeOfTheShippedFile() throws Exception {
    Tag tag = Tag.next(Tag.Kind.UNIT, 122);
    for (LabelStock stock : shipped().labels()) {
      for (SymbolKind kind : SymbolKind.values()) {
        Label label = Label.of(tag, kind);
        OptionalDouble widest = LabelDrawing.widestX(label, stock.size());
        if (widest.isPresent()) {
          double x = widest.getAsDouble();
          boolean bars = kind == SymbolKind.CODE_128;
          assertThat(
                  DrawnLabel.parse(LabelDrawing.svg(label, stock.size(), x))
                      .scan(bars ? 10 * x : x, bars ? 0 : x)
                      .getText())
              .as(stock.key() + ", " + kind)
              .isEqualTo(tag.text());
        }
      }
    }
  }

  @Test
  void aStockIsFoundByItsKey() throws IOException {
    LabelStocks stocks = shipped();
    assertThat(stocks.find("letter-80").orElseThrow().perPage()).isEqualTo(80);
    assertThat(stocks.find("nothing")).isEmpty();
  }

  /** Ten rows of an inch on eleven leave half an inch above and below. */
  @Test
  void theBlockLiesInTheMiddleOfItsPage() {
    assertThat(LETTER_30.topMm(0)).isCloseTo(12.7, within(1e-9));
    assertThat(LETTER_30.topMm(29) + 25.4).isCloseTo(279.4 - 12.7, within(1e-9));
    assertThat(LETTER_30.leftMm(0)).isCloseTo(215.9 - LETTER_30.leftMm(2) - 66.7, within(1e-9));
    assertThat(LETTER_30.leftMm(3)).isEqualTo(LETTER_30.leftMm(0));
    assertThat(LETTER_30.pageRule()).isEqualTo("@page { size: 215.9mm 279.4mm; margin: 0; }");
  }

  @Test
  void aPrinterThatIsOffIsPutRight() {
    LabelStock moved =
        new LabelStock(
            "letter-30", "Sheet", LabelStock.Page.LETTER, 66.7, 25.4, 3, 10, 3.1, 0, 1.5, -2);
    assertThat(moved.leftMm(7) - LETTER_30.leftMm(7)).isCloseTo(1.5, within(1e-9));
    assertThat(moved.topMm(7) - LETTER_30.topMm(7)).isCloseTo(-2, within(1e-9));
  }

  @Test
  void pagesAreFilledAfterThePlacesThatAreGone() throws Exception {
    Label label = Label.of(Tag.next(Tag.Kind.KIT, 0), SymbolKind.DATA_MATRIX);
    List<String> pages = LabelSheet.pages(Collections.nCopies(31, label), LETTER_30, 28, 0.5);

    assertThat(pages).hasSize(2);
    assertThat(labelsOf(pages.get(0))).isEqualTo(2);
    assertThat(labelsOf(pages.get(1))).isEqualTo(29);
    assertThat(pages.get(0))
        .contains("x=\"74.6\" y=\"241.3\" width=\"66.7\" height=\"25.4\"")
        .doesNotContain("style", "script");
    assertThat(LabelSheet.pages(List.of(), LETTER_30, 0, 0.5)).isEmpty();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> LabelSheet.pages(List.of(label), LETTER_30, 30, 0.5));
  }

  @Test
  void whatCannotBeIsRefusedByName() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new LabelStock("wide", "Sheet", LabelStock.Page.LETTER, 100, 25, 3, 10, 0, 0, 0, 0))
        .withMessageContaining("“wide”");
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> new LabelStock("r", "Roll", LabelStock.Page.ROLL, 57, 32, 2, 1, 0, 0, 0, 0));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new LabelStock(
                    "r", "Roll", LabelStock.Page.ROLL, 57, 32, 1, 1, 0, 0, Double.NaN, 0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new LabelStocks(List.of(LETTER_30, LETTER_30)))
        .withMessageContaining("twice");
  }

  @Test
  void aMistakeInTheFileIsNamedWithItsLine() throws IOException {
    String wrong = packed().replace("width-mm: 57", "width-mm: 570");
    assertThatThrownBy(() -> ConfigFiles.parse("label-sizes.yaml", wrong, LabelStocks.class))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("label-sizes.yaml, line ")
        .hasMessageContaining("570");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "key: roll-57x32,",
        "name: \"Roll, 57 × 32 mm\",",
        "page: roll,",
        "width: 57,",
        "columns: 1,"
      })
  void aFieldThatIsLeftOutIsNamed(String field) throws IOException {
    String wrong = packed().replaceFirst(Pattern.quote(field.replace("width", "width-mm")), "");
    assertThatThrownBy(() -> ConfigFiles.parse("label-sizes.yaml", wrong, LabelStocks.class))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining(field.substring(0, field.indexOf(':')));
  }

  private static int labelsOf(String page) throws Exception {
    Element root = DrawnLabel.root(page);
    return root.getElementsByTagName("svg").getLength();
  }

  private static LabelStocks shipped() throws IOException {
    return ConfigFiles.parse("label-sizes.yaml", packed(), LabelStocks.class);
  }

  private static String packed() throws IOException {
    try (InputStream in = LabelStockTest.class.getResourceAsStream("/config/label-sizes.yaml")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
