package clinic.stimshelf.program;

import java.util.Collection;
import java.util.Map;

/** What patients already have or are owed. The room of loans says it. */
public interface PacksGiven {

  /**
   * Packs that left for a program, less those that came back sealed, plus those owed by now.
   *
   * @return by program and pad code; what is absent is none
   */
  Map<Long, Map<String, Integer>> given(Collection<Long> programIds);
}
