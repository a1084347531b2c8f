package clinic.stimshelf.codes.labels;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.MultiFormatReader;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.Result;
import com.google.zxing.common.HybridBinarizer;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.DoubleStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** An SVG label taken apart, as a printer and a scanner would see it. */
record DrawnLabel(Element svg, List<Rectangle2D> dark) {

  /** 16 pixels a millimeter: two to each printer's dot. */
  private static final int PIXELS = 16;

  private static final Pattern RECTANGLE =
      Pattern.compile("M([0-9.]+) ([0-9.]+)h([0-9.]+)v([0-9.]+)h-\\3z");

  static DrawnLabel parse(String svg) throws Exception {
    Element root = root(svg);
    String path = ((Element) root.getElementsByTagName("path").item(0)).getAttribute("d");
    List<Rectangle2D> dark = new ArrayList<>();
    Matcher m = RECTANGLE.matcher(path);
    int end = 0;
    while (m.find() && m.start() == end) {
      dark.add(new Rectangle2D.Double(number(m, 1), number(m, 2), number(m, 3), number(m, 4)));
      end = m.end();
    }
    if (end != path.length()) {
      throw new IllegalStateException("not rectangles alone: " + path);
    }
    return new DrawnLabel(root, dark);
  }

  static Element root(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)))
        .getDocumentElement();
  }

  private static double number(Matcher m, int group) {
    return Double.parseDouble(m.group(group));
  }

  /** Reads the symbol as a scanner does that is aimed at it: the view holds its quiet zone too. */
  Result scan(double quietX, double quietY) throws Exception {
    String[] box = svg.getAttribute("viewBox").split(" ");
    int width = (int) Math.ceil(Double.parseDouble(box[2]) * PIXELS);
    int height = (int) Math.ceil(Double.parseDouble(box[3]) * PIXELS);
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, width, height);
    g.scale(PIXELS, PIXELS);
    g.setColor(Color.BLACK);
    dark.forEach(g::fill);
    texts()
        .forEach(
            t -> {
              g.setFont(g.getFont().deriveFont((float) number(t, "font-size")));
              float wide = (float) g.getFontMetrics().stringWidth(t.getTextContent());
              g.drawString(
                  t.getTextContent(), (float) number(t, "x") - wide / 2, (float) number(t, "y"));
            });
    g.dispose();
    int left = (int) ((darkLeft() - quietX) * PIXELS);
    int top = (int) ((darkTop() - quietY) * PIXELS);
    width = (int) ((darkRight() + quietX) * PIXELS) - left;
    height = (int) ((darkBottom() + quietY) * PIXELS) - top;
    int[] pixels = image.getRGB(left, top, width, height, null, 0, width);
    return new MultiFormatReader()
        .decode(
            new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels))),
            Map.of(DecodeHintType.TRY_HARDER, true));
  }

  double darkLeft() {
    return dark.stream().mapToDouble(Rectangle2D::getMinX).min().orElseThrow();
  }

  double darkRight() {
    return dark.stream().mapToDouble(Rectangle2D::getMaxX).max().orElseThrow();
  }

  double darkTop() {
    return dark.stream().mapToDouble(Rectangle2D::getMinY).min().orElseThrow();
  }

  double darkBottom() {
    return dark.stream().mapToDouble(Rectangle2D::getMaxY).max().orElseThrow();
  }

  double[] verticalEdges() {
    return dark.stream().flatMapToDouble(r -> DoubleStream.of(r.getMinX(), r.getMaxX())).toArray();
  }

  /** The top of capital letters, which are no higher than 0.75 of the type's size. */
  double textTop() {
    return texts().stream()
        .mapToDouble(t -> number(t, "y") - 0.75 * number(t, "font-size"))
        .min()
        .orElseThrow();
  }

  /** The foot of letters that hang below the line, no lower than 0.25 of the type's size. */
  double textBottom() {
    return texts().stream()
        .mapToDouble(t -> number(t, "y") + 0.25 * number(t, "font-size"))
        .max()
        .orElseThrow();
  }

  double widestText() {
    return texts().stream()
        .mapToDouble(t -> 0.61 * number(t, "font-size") * t.getTextContent().length())
        .max()
        .orElseThrow();
  }

  List<String> lines() {
    return texts().stream().map(Element::getTextContent).toList();
  }

  String role() {
    return svg.getAttribute("role");
  }

  String title() {
    return svg.getFirstChild().getNodeName().equals("title")
        ? svg.getFirstChild().getTextContent()
        : "";
  }

  private List<Element> texts() {
    NodeList found = svg.getElementsByTagName("text");
    List<Element> texts = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      texts.add((Element) found.item(i));
    }
    return texts;
  }

  private static double number(Element element, String attribute) {
    return Double.parseDouble(element.getAttribute(attribute));
  }
}
