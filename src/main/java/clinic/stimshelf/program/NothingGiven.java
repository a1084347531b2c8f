package clinic.stimshelf.program;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.Map;

/** Without a room of loans nothing left the shelf. */
@DefaultBean
@ApplicationScoped
class NothingGiven implements PacksGiven {
  @Override
  public Map<Long, Map<String, Integer>> given(Collection<Long> programIds) {
    return Map.of();
  }
}
