package clinic.stimshelf.pads;

import java.util.Collection;
import java.util.Locale;

/**
 * A pad drawn to scale, the longer side lying; numbers are those of the drawing.
 *
 * @param round whether it is an ellipse about x and y, else a rectangle from there
 */
record PadPicture(boolean round, String x, String y, String width, String height) {
  static final int WIDE = 56;
  static final int HIGH = 44;

  /** Drawing units a millimeter at most, so that a common pad of 2 × 4 in looks like one. */
  private static final double LARGEST_SCALE = 0.42;

  /** One scale for all that stand on a page together. */
  static double scale(Collection<PadTypeView> types) {
    double scale = LARGEST_SCALE;
    for (PadTypeView type : types) {
      scale = Math.min(scale, (WIDE - 2.0) / Math.max(type.widthMm(), type.heightMm()));
      scale = Math.min(scale, (HIGH - 2.0) / Math.min(type.widthMm(), type.heightMm()));
    }
    return scale;
  }

  static PadPicture of(PadTypeView type, double scale) {
    double width = Math.max(type.widthMm(), type.heightMm()) * scale;
    double height = Math.min(type.widthMm(), type.heightMm()) * scale;
    return type.shape() == PadShape.RECTANGLE
        ? new PadPicture(
            false,
            number((WIDE - width) / 2),
            number((HIGH - height) / 2),
            number(width),
            number(height))
        : new PadPicture(
            true, number(WIDE / 2.0), number(HIGH / 2.0), number(width / 2), number(height / 2));
  }

  static String number(double x) {
    return String.format(Locale.ROOT, "%.1f", x);
  }
}
