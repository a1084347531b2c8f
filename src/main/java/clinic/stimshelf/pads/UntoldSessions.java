package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.Collection;
import java.util.Map;

/** What is expected of sessions that nobody told of. Implemented by programs. */
public interface UntoldSessions {

  /** Days of a program, both included. */
  record Stretch(Long programId, LocalDate from, LocalDate to) {}

  /**
   * Sessions that probably took place: those planned up to yesterday of which nothing is known, at
   * the share the program is otherwise followed with.
   */
  Map<Stretch, Integer> expected(Collection<Stretch> stretches);
}
