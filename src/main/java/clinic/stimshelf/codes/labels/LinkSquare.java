package clinic.stimshelf.codes.labels;

import java.util.stream.Collectors;
import uk.org.okapibarcode.backend.OkapiException;
import uk.org.okapibarcode.backend.QrCode;

/** An address as a square that the camera of a phone reads (QR code, ISO/IEC 18004). */
public final class LinkSquare {
  /** The standard's quiet zone, in modules. */
  private static final int QUIET = 4;

  private LinkSquare() {}

  /**
   * The square as SVG, black on white whatever the page's colors are.
   *
   * @param spoken what it is, for those who do not see it; text without markup
   * @throws IllegalArgumentException if the address is too long to be drawn
   */
  public static String svg(String address, String spoken) {
    QrCode square = new QrCode();
    square.setPreferredEccLevel(QrCode.EccLevel.M);
    square.setModuleWidth(1);
    try {
      square.setContent(address);
    } catch (OkapiException e) {
      throw new IllegalArgumentException("This address cannot be drawn.", e);
    }
    int size = square.getWidth() + 2 * QUIET;
    String path =
        square.getRectangles().stream()
            .map(
                r ->
                    "M%d %dh%dv%dh-%dz"
                        .formatted(
                            (int) r.x + QUIET,
                            (int) r.y + QUIET,
                            (int) r.width,
                            (int) r.height,
                            (int) r.width))
            .collect(Collectors.joining());
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %1$d %1$d\" width=\"%1$dmm\" height=\"%1$dmm\" role=\"img\"><title>%2$s</title><rect width=\"%1$d\" height=\"%1$d\" fill=\"#fff\"/><path d=\"%3$s\" fill=\"#000\"/></svg>"
        .formatted(size, spoken.replace("&", "&amp;").replace("<", "&lt;"), path);
  }
}
