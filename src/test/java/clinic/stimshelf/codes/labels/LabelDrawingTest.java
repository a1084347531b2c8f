package clinic.stimshelf.codes.labels;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import com.google.zxing.BarcodeFormat;
import com.google.zxing.Result;
import com.google.zxing.ResultMetadataType;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is drawn is read back from the SVG by ZXing, a reader of other hands. */
class LabelDrawingTest {

  private static final Tag TAG = Tag.next(Tag.Kind.UNIT, 122);
  private static final UdiReader READER = UdiReader.of(2026);

  /** IMDRF UDI guide N48, appendix A. */
  private static final Udi UDI =
      READER.read("]d201095060001178431114123117201231101234AB\u001D215678CD");

  @ParameterizedTest
  @CsvSource({
    "DATA_MATRIX, 57, 32, 0.5",
    "DATA_MATRIX, 51, 25, 0.375",
    "DATA_MATRIX, 38, 25, 0.25",
    "DATA_MATRIX, 25, 25, 1",
    "DATA_MATRIX, 44.5, 12.7, 0.5",
    "CODE_128, 57, 32, 0.375",
    "CODE_128, 51, 25, 0.25",
    "CODE_128, 66.7, 25.4, 0.375",
    "CODE_128, 44.5, 12.7, 0.25"
  })
  void aTagIsReadBackFromEveryUsualLabel(SymbolKind kind, double width, double height, double x)
      throws Exception {
    Label label = Label.of(TAG, kind);
    String svg = LabelDrawing.svg(label, new LabelSize(width, height), x);
    Result result =
        DrawnLabel.parse(svg)
            .scan(kind == SymbolKind.CODE_128 ? 10 * x : x, kind == SymbolKind.CODE_128 ? 0 : x);

    assertThat(result.getText()).isEqualTo(TAG.text());
    assertThat(result.getBarcodeFormat()).isEqualTo(BarcodeFormat.valueOf(kind.name()));
  }

  @Test
  void aDeviceLabelIsReadBackAsGs1DataMatrix() throws Exception {
    Label label = Label.of(UDI, SymbolKind.DATA_MATRIX);
    Result result =
        DrawnLabel.parse(LabelDrawing.svg(label, new LabelSize(57, 32), 0.375)).scan(0.375, 0.375);

    String id = (String) result.getResultMetadata().get(ResultMetadataType.SYMBOLOGY_IDENTIFIER);
    assertThat(id).isEqualTo("]d2");
    Udi back = READER.read(id + result.getText());
    assertThat(back.problems()).isEmpty();
    assertThat(back.elements()).isEqualTo(UDI.elements());
  }

  @Test
  void aDeviceLabelIsReadBackAsGs1Code128() throws Exception {
    Udi udi = READER.read("(01)09506000117843(17)280229(10)L9");
    Label label = Label.of(udi, SymbolKind.CODE_128);
    Result result =
        DrawnLabel.parse(LabelDrawing.svg(label, new LabelSize(70, 37), 0.25)).scan(2.5, 0);

    String id = (String) result.getResultMetadata().get(ResultMetadataType.SYMBOLOGY_IDENTIFIER);
    assertThat(id).isEqualTo("]C1");
    assertThat(READER.read(id + result.getText()).elements()).isEqualTo(udi.elements());
  }

  @Test
  void everyElementStandsBeneathADeviceLabel() throws Exception {
    String svg =
        LabelDrawing.svg(Label.of(UDI, SymbolKind.DATA_MATRIX), new LabelSize(57, 32), 0.375);
    assertThat(DrawnLabel.parse(svg).lines())
        .containsExactly(
            "(01)09506000117843", "(11)141231", "(17)201231", "(10)1234AB", "(21)5678CD");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "]d20109506000117844",
        "]d2010950600011784317271301",
        "+A123BJC5D6E71G",
        "]d210ABC17270101"
      })
  void whatIsMisreadOrOfAnotherIssuerIsNotDrawn(String scan) {
    Udi udi = READER.read(scan);
    assertThatIllegalArgumentException().isThrownBy(() -> Label.of(udi, SymbolKind.DATA_MATRIX));
  }

  /** GS1 General Specifications, symbol table 6: 10X beside bars, 1X around a DataMatrix. */
  @ParameterizedTest
  @CsvSource({"DATA_MATRIX, 0.5, 1, 1", "DATA_MATRIX, 0.25, 1, 1", "CODE_128, 0.25, 10, 0"})
  void theQuietZoneIsKeptFree(SymbolKind kind, double x, int across, int along) throws Exception {
    LabelSize size = new LabelSize(44.5, 19);
    DrawnLabel drawn = DrawnLabel.parse(LabelDrawing.svg(Label.of(TAG, kind, "Shelf B"), size, x));

    assertThat(drawn.darkLeft()).isGreaterThanOrEqualTo(across * x);
    assertThat(size.widthMm() - drawn.darkRight()).isGreaterThanOrEqualTo(across * x);
    assertThat(drawn.darkTop()).isGreaterThanOrEqualTo(along * x);
    assertThat(drawn.textTop() - drawn.darkBottom()).isGreaterThanOrEqualTo(along * x);
    assertThat(drawn.textBottom()).isLessThanOrEqualTo(size.heightMm());
    assertThat(drawn.widestText()).isLessThanOrEqualTo(size.widthMm());
  }

  @Test
  void everyEdgeLiesOnThePrintersDots() throws Exception {
    for (SymbolKind kind : SymbolKind.values()) {
      String svg = LabelDrawing.svg(Label.of(TAG, kind), new LabelSize(66.7, 25.4), 0.375);
      for (double edge : DrawnLabel.parse(svg).verticalEdges()) {
        assertThat(edge / 0.125).isCloseTo(Math.rint(edge / 0.125), within(1e-6));
      }
    }
  }

  /** Measured with the library alone: 123 modules for this tag as bars, 14 as a square. */
  @Test
  void aTagHasTheSizeThatItsModulesGive() throws Exception {
    DrawnLabel bars =
        DrawnLabel.parse(
            LabelDrawing.svg(Label.of(TAG, SymbolKind.CODE_128), new LabelSize(57, 32), 0.25));
    assertThat(bars.darkRight() - bars.darkLeft()).isCloseTo(123 * 0.25, within(1e-6));
    DrawnLabel square =
        DrawnLabel.parse(
            LabelDrawing.svg(Label.of(TAG, SymbolKind.DATA_MATRIX), new LabelSize(25, 25), 0.5));
    assertThat(square.darkRight() - square.darkLeft()).isCloseTo(14 * 0.5, within(1e-6));
  }

  @Test
  void aLabelThatDoesNotFitIsRefusedWithTheSizeItNeeds() {
    Label label = Label.of(TAG, SymbolKind.CODE_128);
    // 143 modules of 0.25 mm and 1 mm at either edge.
    assertThatIllegalArgumentException()
        .isThrownBy(() -> LabelDrawing.svg(label, new LabelSize(25, 25), 0.25))
        .withMessageContaining("25 × 25 mm is too small")
        .withMessageContaining("37.75 ×");
  }

  @Test
  void theWidestBarsThatFitAreFound() {
    Label bars = Label.of(TAG, SymbolKind.CODE_128);
    assertThat(LabelDrawing.widestX(bars, new LabelSize(38, 25))).hasValue(0.25);
    assertThat(LabelDrawing.widestX(bars, new LabelSize(25, 25))).isEmpty();
    Label device = Label.of(UDI, SymbolKind.DATA_MATRIX);
    assertThat(LabelDrawing.widestX(device, new LabelSize(100, 100))).hasValue(0.375);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -0.25, 0.125, 0.3, 1.125, Double.NaN, Double.POSITIVE_INFINITY})
  void unevenBarsAreRefused(double x) {
    Label label = Label.of(TAG, SymbolKind.DATA_MATRIX);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> LabelDrawing.svg(label, new LabelSize(57, 32), x))
        .withMessageContaining("multiple of 0.125");
  }

  /** Symbol table 6: X of a GS1 DataMatrix 0.254 to 0.495 mm, of GS1-128 0.170 to 0.495 mm. */
  @Test
  void theBoundsOfGs1AreKept() {
    Label square = Label.of(UDI, SymbolKind.DATA_MATRIX);
    for (double x : new double[] {0.25, 0.5}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> LabelDrawing.svg(square, new LabelSize(57, 57), x))
          .withMessageContaining("0.375 mm");
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, 0, -1, 4.9, 301})
  void impossibleSizesAreRefused(double mm) {
    assertThatIllegalArgumentException().isThrownBy(() -> new LabelSize(mm, 25));
    assertThatIllegalArgumentException().isThrownBy(() -> new LabelSize(25, mm));
  }

  @Test
  void theDrawingIsSafeAndAccessible() throws Exception {
    Label label = Label.of(TAG, SymbolKind.DATA_MATRIX, "<b>&\u0001 \"x\"");
    String svg = LabelDrawing.svg(label, new LabelSize(57, 32), 0.5);
    assertThat(svg).doesNotContain("style", "script", "<b>", " on", " id=", "\u0001");
    DrawnLabel drawn = DrawnLabel.parse(svg);
    assertThat(drawn.role()).isEqualTo("img");
    assertThat(drawn.title()).isEqualTo("Tag " + TAG.text());
    assertThat(drawn.lines()).containsExactly(TAG.text(), "<b>& \"x\"");
  }

  @Test
  void linesThatNoLabelHoldsAreRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Label.of(TAG, SymbolKind.DATA_MATRIX, "x".repeat(61)));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> Label.of(TAG, SymbolKind.DATA_MATRIX, "1", "2", "3", "4", "5", "6", "7", "8"));
  }
}
