package clinic.stimshelf.shelf;

import java.math.BigDecimal;
import java.util.List;

/**
 * A kind of unit.
 *
 * @param connector of its lead wires, as pads name it
 * @param chargeDays days until a charge lapses, {@code null} where nothing is charged
 * @param contents what a new unit comes with
 */
public record KindView(
    Long id,
    String code,
    String name,
    int channels,
    String connector,
    OutputScale output,
    Integer chargeDays,
    String cellType,
    BigDecimal price,
    boolean lendsOut,
    List<PartLine> contents) {

  /** A part that belongs to the kit. */
  public record PartLine(Part part, String name, boolean essential) {}
}
