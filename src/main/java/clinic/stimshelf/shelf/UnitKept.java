package clinic.stimshelf.shelf;

import java.util.Optional;

/** Whether something that still goes on keeps a unit off the shelf. The room of recalls says. */
public interface UnitKept {

  /** Why it stays off the shelf, as a sentence; empty if nothing keeps it. */
  Optional<String> why(Long unitId, String serial, Long kindId);
}
