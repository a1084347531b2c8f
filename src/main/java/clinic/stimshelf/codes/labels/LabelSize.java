package clinic.stimshelf.codes.labels;

/**
 * One label of the clinic's stock, in millimeters.
 *
 * @param widthMm 5 to 300
 * @param heightMm 5 to 300
 */
public record LabelSize(double widthMm, double heightMm) {

  private static final double SMALLEST = 5;
  private static final double LARGEST = 300;

  public LabelSize {
    requireSide("width", widthMm);
    requireSide("height", heightMm);
  }

  private static void requireSide(String side, double mm) {
    if (!(mm >= SMALLEST && mm <= LARGEST)) {
      throw new IllegalArgumentException(
          "A label's %s of %s mm cannot be printed: give 5 to 300 mm.".formatted(side, mm));
    }
  }
}
