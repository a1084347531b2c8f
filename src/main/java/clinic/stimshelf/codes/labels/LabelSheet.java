package clinic.stimshelf.codes.labels;

import java.util.ArrayList;
import java.util.List;

/** Labels on their stock: an SVG for each page, each label an image of its own within. */
public final class LabelSheet {

  private LabelSheet() {}

  /**
   * Fills pages place by place.
   *
   * @param used how many places of the first page are already peeled off, 0 to one less than a page
   *     holds
   * @param xMm width of the narrowest bar or dot, see {@link LabelDrawing#svg}
   * @return as many pages as needed, none for no labels
   * @throws IllegalArgumentException if {@code used} is outside, or a label cannot be drawn
   */
  public static List<String> pages(List<Label> labels, LabelStock stock, int used, double xMm) {
    if (used < 0 || used >= stock.perPage()) {
      throw new IllegalArgumentException(
          "%d labels cannot be gone from a page of %d: give 0 to %d."
              .formatted(used, stock.perPage(), stock.perPage() - 1));
    }
    List<String> pages = new ArrayList<>();
    StringBuilder page = new StringBuilder();
    int place = used;
    for (int i = 0; i < labels.size(); i++) {
      page.append(
          LabelDrawing.nested(
              labels.get(i), stock.size(), xMm, stock.leftMm(place), stock.topMm(place)));
      place++;
      if (place == stock.perPage() || i == labels.size() - 1) {
        pages.add(wrap(page, stock));
        page.setLength(0);
        place = 0;
      }
    }
    return pages;
  }

  private static String wrap(StringBuilder labels, LabelStock stock) {
    String width = LabelDrawing.mm(stock.pageWidthMm());
    String height = LabelDrawing.mm(stock.pageHeightMm());
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">%s</svg>"
        .formatted(width, height, width, height, labels);
  }
}
