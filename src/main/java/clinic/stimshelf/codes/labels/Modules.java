package clinic.stimshelf.codes.labels;

import java.util.List;
import uk.org.okapibarcode.backend.Code128;
import uk.org.okapibarcode.backend.DataMatrix;
import uk.org.okapibarcode.backend.HumanReadableLocation;
import uk.org.okapibarcode.backend.OkapiException;
import uk.org.okapibarcode.backend.Symbol;

/**
 * A symbol in modules, the unit being the width of its narrowest bar or dot (X).
 *
 * @param columns without quiet zone
 * @param rows without quiet zone; 1 for bars, which are as high as the label lets them be
 * @param dark the dark rectangles
 * @param quietX the quiet zone at either side, in modules
 * @param quietY the quiet zone above and below, in modules
 */
record Modules(int columns, int rows, List<Dark> dark, int quietX, int quietY) {

  record Dark(int x, int y, int width, int height) {}

  static Modules of(Label label) {
    boolean bars = label.kind() == SymbolKind.CODE_128;
    Symbol symbol;
    if (bars) {
      symbol = new Code128();
    } else {
      DataMatrix square = new DataMatrix();
      square.setForceMode(DataMatrix.ForceMode.SQUARE);
      symbol = square;
    }
    symbol.setHumanReadableLocation(HumanReadableLocation.NONE);
    symbol.setModuleWidth(1);
    symbol.setBarHeight(1);
    if (label.gs1()) {
      symbol.setDataType(Symbol.DataType.GS1);
    }
    try {
      symbol.setContent(label.data());
    } catch (OkapiException e) {
      throw new IllegalArgumentException(
          "'%s' cannot be drawn: %s.".formatted(label.data(), e.getMessage()), e);
    }
    List<Dark> dark =
        symbol.getRectangles().stream()
            .map(r -> new Dark((int) r.x, (int) r.y, (int) r.width, bars ? 1 : (int) r.height))
            .toList();
    int columns = dark.stream().mapToInt(d -> d.x() + d.width()).max().orElseThrow();
    int rows = dark.stream().mapToInt(d -> d.y() + d.height()).max().orElseThrow();
    // GS1 General Specifications, symbol table 6: 10X beside bars, 1X around a DataMatrix.
    return bars ? new Modules(columns, 1, dark, 10, 0) : new Modules(columns, rows, dark, 1, 1);
  }
}
