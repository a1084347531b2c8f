package clinic.stimshelf.codes.labels;

import java.util.regex.Pattern;

/**
 * One kind of label that a clinic prints on, in millimeters; a sheet's block of labels lies in the
 * middle of its page, moved by what the printer needs.
 *
 * @param key a-z, 0-9 and dashes
 * @param name what people choose by
 * @param columns labels beside each other, 1 on a roll
 * @param rows labels below each other, 1 on a roll
 * @param gapAcrossMm between two labels of a row, from edge to edge
 * @param gapDownMm between two rows, from edge to edge
 * @param shiftRightMm added to every place, −20 to 20
 * @param shiftDownMm added to every place, −20 to 20
 */
public record LabelStock(
    String key,
    String name,
    Page page,
    double widthMm,
    double heightMm,
    int columns,
    int rows,
    double gapAcrossMm,
    double gapDownMm,
    double shiftRightMm,
    double shiftDownMm) {

  /** What the printer is fed with. */
  public enum Page {
    /** A label printer: every label is a page. */
    ROLL(0, 0),
    LETTER(215.9, 279.4),
    A4(210, 297);

    private final double widthMm;
    private final double heightMm;

    Page(double widthMm, double heightMm) {
      this.widthMm = widthMm;
      this.heightMm = heightMm;
    }
  }

  private static final Pattern KEY = Pattern.compile("[a-z0-9-]{1,40}");
  private static final double LARGEST_SHIFT = 20;

  public LabelStock {
    // A file may leave any of them out, whatever the types promise.
    require(key != null && KEY.matcher(key).matches(), key, "key", "a-z, 0-9 and dashes");
    require(name != null && !name.isBlank(), key, "name", "words to choose it by");
    require(page != null, key, "page", "roll, letter or a4");
    new LabelSize(widthMm, heightMm);
    require(columns >= 1 && columns <= 20, key, "columns", "1 to 20");
    require(rows >= 1 && rows <= 50, key, "rows", "1 to 50");
    require(gapAcrossMm >= 0 && gapAcrossMm <= 100, key, "gap-across-mm", "0 to 100");
    require(gapDownMm >= 0 && gapDownMm <= 100, key, "gap-down-mm", "0 to 100");
    require(Math.abs(shiftRightMm) <= LARGEST_SHIFT, key, "shift-right-mm", "-20 to 20");
    require(Math.abs(shiftDownMm) <= LARGEST_SHIFT, key, "shift-down-mm", "-20 to 20");
    if (page == Page.ROLL) {
      require(
          columns == 1 && rows == 1,
          key,
          "columns and rows",
          "1, because a roll has one label a page");
    } else {
      require(
          block(columns, widthMm, gapAcrossMm) <= page.widthMm
              && block(rows, heightMm, gapDownMm) <= page.heightMm,
          key,
          "labels",
          "no more than fit on the page");
    }
  }

  /** One label's size. */
  public LabelSize size() {
    return new LabelSize(widthMm, heightMm);
  }

  /** How many labels a page holds. */
  public int perPage() {
    return columns * rows;
  }

  /** The page's width: the label's own on a roll. */
  public double pageWidthMm() {
    return page == Page.ROLL ? widthMm : page.widthMm;
  }

  /** The page's height: the label's own on a roll. */
  public double pageHeightMm() {
    return page == Page.ROLL ? heightMm : page.heightMm;
  }

  /**
   * From the page's left edge to the label's.
   *
   * @param place from 0, row by row
   */
  public double leftMm(int place) {
    double first = (pageWidthMm() - block(columns, widthMm, gapAcrossMm)) / 2 + shiftRightMm;
    return first + place % columns * (widthMm + gapAcrossMm);
  }

  /**
   * From the page's upper edge to the label's.
   *
   * @param place from 0, row by row
   */
  public double topMm(int place) {
    double first = (pageHeightMm() - block(rows, heightMm, gapDownMm)) / 2 + shiftDownMm;
    return first + place / columns * (heightMm + gapDownMm);
  }

  /** The rule for a print style sheet, so that the browser neither scales nor adds margins. */
  public String pageRule() {
    return "@page { size: %smm %smm; margin: 0; }"
        .formatted(LabelDrawing.mm(pageWidthMm()), LabelDrawing.mm(pageHeightMm()));
  }

  private static double block(int count, double side, double gap) {
    return count * side + (count - 1) * gap;
  }

  private static void require(boolean holds, String key, String field, String allowed) {
    if (!holds) {
      throw new IllegalArgumentException(
          "Label “%s” needs “%s” of %s.".formatted(key, field, allowed));
    }
  }
}
