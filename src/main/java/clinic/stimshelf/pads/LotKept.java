package clinic.stimshelf.pads;

import java.util.Optional;

/** Whether something that still goes on keeps a lot back. The room of recalls says. */
public interface LotKept {

  /** Why it stays held, as a sentence; empty if nothing keeps it. */
  Optional<String> why(Long lotId);
}
