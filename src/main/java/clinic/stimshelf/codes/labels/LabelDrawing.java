package clinic.stimshelf.codes.labels;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Draws labels as SVG: black on white whatever the page's colors are, by presentation attributes
 * alone (no style, script or identifier), with a title for screen readers.
 *
 * <p>The narrowest bar or dot (X) must be a multiple of {@value #DOT_MM} mm, the dot of a printer
 * with 203 dots an inch, so that no bar is rounded to another width. The text beneath is as large
 * as fits, {@value #LARGEST_TEXT_MM} mm at most and {@value #SMALLEST_TEXT_MM} mm at least.
 */
public final class LabelDrawing {

  /** The grid that everything dark lies on. */
  public static final double DOT_MM = 0.125;

  private static final double SMALLEST_X_MM = 0.25;
  private static final double LARGEST_X_MM = 1;
  static final double LARGEST_TEXT_MM = 3;
  static final double SMALLEST_TEXT_MM = 1.5;

  // Common practice, no source: the edge that printers cut, the gap above text, the lowest bars
  // that a hand scanner finds (5 mm or 15 % of the width), the shape of fixed-width type.
  private static final double MARGIN_MM = 1;
  private static final double GAP_MM = 0.5;
  private static final double LOWEST_BARS_MM = 5;
  private static final double LOWEST_BARS_SHARE = 0.15;
  private static final double LINE = 1.2;
  private static final double CHARACTER = 0.62;

  // GS1 General Specifications, symbol table 6 (regulated healthcare): X and height of bars.
  private static final double GS1_SQUARE_X_MIN_MM = 0.254;
  private static final double GS1_BARS_X_MIN_MM = 0.170;
  private static final double GS1_X_MAX_MM = 0.495;
  private static final double GS1_BARS_MM = 12.7;

  private LabelDrawing() {}

  /**
   * The label as an SVG element of the label's size.
   *
   * @param xMm width of the narrowest bar or dot: a multiple of {@value #DOT_MM} from 0.25 to 1,
   *     for GS1 within the bounds of its symbol table
   * @throws IllegalArgumentException if X is not allowed or the label does not fit, with the size
   *     that it needs
   */
  public static String svg(Label label, LabelSize size, double xMm) {
    String place =
        "width=\"%smm\" height=\"%smm\"".formatted(mm(size.widthMm()), mm(size.heightMm()));
    return draw(label, size, xMm, layout(label, size, xMm), place);
  }

  /** The same within a page whose unit is the millimeter. */
  static String nested(Label label, LabelSize size, double xMm, double left, double top) {
    String place =
        "x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\""
            .formatted(mm(left), mm(top), mm(size.widthMm()), mm(size.heightMm()));
    return draw(label, size, xMm, layout(label, size, xMm), place);
  }

  /** The widest X with which the label fits; empty if it fits with none. */
  public static OptionalDouble widestX(Label label, LabelSize size) {
    Modules modules = Modules.of(label);
    for (int dots = (int) (LARGEST_X_MM / DOT_MM); dots >= SMALLEST_X_MM / DOT_MM; dots--) {
      double xMm = dots * DOT_MM;
      if (isAllowed(label, xMm) && Layout.of(label, modules, size, xMm).fits()) {
        return OptionalDouble.of(xMm);
      }
    }
    return OptionalDouble.empty();
  }

  private static Layout layout(Label label, LabelSize size, double xMm) {
    requireX(label, xMm);
    Layout layout = Layout.of(label, Modules.of(label), size, xMm);
    if (!layout.fits()) {
      throw new IllegalArgumentException(
          "A label of %s × %s mm is too small for '%s': it needs %s × %s mm with bars or dots of %s mm. Choose a larger label%s."
              .formatted(
                  mm(size.widthMm()),
                  mm(size.heightMm()),
                  label.lines().get(0),
                  mm(layout.neededWidth()),
                  mm(layout.neededHeight()),
                  mm(xMm),
                  label.kind() == SymbolKind.CODE_128 ? " or the square symbol" : ""));
    }
    return layout;
  }

  private static void requireX(Label label, double xMm) {
    double dots = xMm / DOT_MM;
    if (!(xMm >= SMALLEST_X_MM && xMm <= LARGEST_X_MM) || Math.abs(dots - Math.rint(dots)) > 1e-9) {
      throw new IllegalArgumentException(
          "Bars or dots of %s mm would print unevenly: use a multiple of 0.125 mm from 0.25 to 1 mm."
              .formatted(xMm));
    }
    if (!isAllowed(label, xMm)) {
      throw new IllegalArgumentException(
          "GS1 does not allow bars or dots of %s mm on a device's label: use %s mm."
              .formatted(mm(xMm), label.kind() == SymbolKind.CODE_128 ? "0.25 or 0.375" : "0.375"));
    }
  }

  private static boolean isAllowed(Label label, double xMm) {
    double least = label.kind() == SymbolKind.CODE_128 ? GS1_BARS_X_MIN_MM : GS1_SQUARE_X_MIN_MM;
    return !label.gs1() || (xMm >= least && xMm <= GS1_X_MAX_MM);
  }

  private static String draw(Label label, LabelSize size, double xMm, Layout layout, String place) {
    String width = mm(size.widthMm());
    String height = mm(size.heightMm());
    StringBuilder svg = new StringBuilder();
    svg.append(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" %s viewBox=\"0 0 %s %s\">"
            .formatted(place, width, height));
    svg.append("<title>").append(escape(label.title())).append("</title>");
    svg.append("<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>".formatted(width, height));
    svg.append("<path fill=\"#000\" shape-rendering=\"crispEdges\" d=\"");
    boolean bars = label.kind() == SymbolKind.CODE_128;
    for (Modules.Dark dark : layout.modules().dark()) {
      String w = mm(dark.width() * xMm);
      svg.append(
          "M%s %sh%sv%sh-%sz"
              .formatted(
                  mm(layout.left() + dark.x() * xMm),
                  mm(layout.top() + dark.y() * xMm),
                  w,
                  mm(bars ? layout.symbolHeight() : dark.height() * xMm),
                  w));
    }
    svg.append("\"/>");
    List<String> lines = label.lines();
    for (int i = 0; i < lines.size(); i++) {
      svg.append(
          "<text x=\"%s\" y=\"%s\" font-family=\"monospace\" font-size=\"%s\" text-anchor=\"middle\" fill=\"#000\">%s</text>"
              .formatted(
                  mm(size.widthMm() / 2),
                  mm(layout.textTop() + (i * LINE + 0.9) * layout.text()),
                  mm(layout.text()),
                  escape(lines.get(i))));
    }
    return svg.append("</svg>").toString();
  }

  /**
   * Where things lie, in millimeters from the label's upper left corner.
   *
   * @param left where the symbol's dark part may begin
   * @param top likewise
   * @param symbolHeight without quiet zone
   * @param text the size of the type; too small where the label does not fit
   */
  private record Layout(
      Modules modules,
      double left,
      double top,
      double symbolHeight,
      double textTop,
      double text,
      double neededWidth,
      double neededHeight,
      LabelSize size) {

    static Layout of(Label label, Modules modules, LabelSize size, double xMm) {
      int lines = label.lines().size();
      int characters = label.lines().stream().mapToInt(String::length).max().orElseThrow();
      boolean bars = label.kind() == SymbolKind.CODE_128;
      double symbolWidth = (modules.columns() + 2 * modules.quietX()) * xMm;
      double lowest = (modules.rows() + 2 * modules.quietY()) * xMm;
      if (bars) {
        lowest =
            label.gs1()
                ? GS1_BARS_MM
                : Math.max(LOWEST_BARS_MM, LOWEST_BARS_SHARE * modules.columns() * xMm);
      }
      double innerWidth = size.widthMm() - 2 * MARGIN_MM;
      double innerHeight = size.heightMm() - 2 * MARGIN_MM - GAP_MM;
      double text =
          Math.min(
              LARGEST_TEXT_MM,
              Math.min(
                  innerWidth / (CHARACTER * characters), (innerHeight - lowest) / (LINE * lines)));
      double block = bars ? innerHeight - LINE * lines * text : lowest;
      double left = (size.widthMm() - symbolWidth) / 2 + modules.quietX() * xMm;
      return new Layout(
          modules,
          Math.floor(left / DOT_MM) * DOT_MM,
          MARGIN_MM + modules.quietY() * xMm,
          block - 2 * modules.quietY() * xMm,
          MARGIN_MM + block + GAP_MM,
          text,
          Math.max(symbolWidth, CHARACTER * SMALLEST_TEXT_MM * characters) + 2 * MARGIN_MM,
          lowest + GAP_MM + LINE * SMALLEST_TEXT_MM * lines + 2 * MARGIN_MM,
          size);
    }

    boolean fits() {
      double rounding = 1e-9;
      return neededWidth <= size.widthMm() + rounding && neededHeight <= size.heightMm() + rounding;
    }
  }

  /** Millimeters for an attribute: three places at most. */
  static String mm(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(3, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
