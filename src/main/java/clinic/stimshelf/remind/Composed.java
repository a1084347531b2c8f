package clinic.stimshelf.remind;

import java.util.List;

/**
 * A message as it reads.
 *
 * @param stop address at which one gets no more of them, or {@code null}
 */
record Composed(String language, String subject, List<String> lines, String stop) {

  String text() {
    return String.join("\n\n", lines) + "\n";
  }

  /** As a text message carries it. */
  String shortText() {
    return String.join(" ", lines);
  }
}
