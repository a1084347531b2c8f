package clinic.stimshelf.recall;

import java.time.Instant;
import java.util.List;

/**
 * How everything stood when an incident was entered, in words, so that neither later changes nor a
 * later version of this program alter what was kept.
 */
public record Frozen(Instant takenAt, List<Part> parts) {

  /** A part, such as the unit or the settings. */
  public record Part(String heading, List<Line> lines) {}

  /** One fact. */
  public record Line(String label, String value) {}
}
