package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;
import clinic.stimshelf.web.ConfigFiles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Line sketches of where pads usually lie, one per muscle, drawn for the right side and mirrored
 * for the left: {@code config/sketches/}.
 */
@ApplicationScoped
class Sketches {
  private final Map<String, Optional<String>> drawn = new ConcurrentHashMap<>();

  @Inject ConfigFiles files;

  /**
   * The sketch as SVG, or {@code null} where the muscle has none.
   *
   * @param paired whether the muscle lies on a limb, so that both sides take two sketches
   */
  String of(String muscle, Side side, boolean paired) {
    return drawn
        .computeIfAbsent(muscle, this::read)
        .map(
            svg ->
                !paired || side == null
                    ? sheet(160, svg)
                    : switch (side) {
                      case RIGHT -> sheet(160, svg);
                      case LEFT -> sheet(160, mirrored(svg));
                      case BOTH ->
                          sheet(
                              330,
                              svg + "<g transform=\"translate(170 0)\">" + mirrored(svg) + "</g>");
                    })
        .orElse(null);
  }

  private Optional<String> read(String muscle) {
    String name = "sketches/" + muscle + ".svg";
    if (!muscle.matches("[a-z0-9-]{1,40}") || !files.has(name)) {
      return Optional.empty();
    }
    String text = files.text(name);
    int from = text.indexOf('>', text.indexOf("<svg")) + 1;
    int to = text.lastIndexOf("</svg>");
    return from > 0 && to > from ? Optional.of(text.substring(from, to)) : Optional.empty();
  }

  private static String mirrored(String svg) {
    return "<g transform=\"translate(160 0) scale(-1 1)\">" + svg + "</g>";
  }

  private static String sheet(int width, String inside) {
    return "<svg viewBox=\"0 0 "
        + width
        + " 320\" class=\"sketch\" aria-hidden=\"true\">"
        + inside
        + "</svg>";
  }
}
