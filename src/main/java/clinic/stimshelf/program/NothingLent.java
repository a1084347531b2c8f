package clinic.stimshelf.program;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.Map;

/** Without a room of lending nothing is out. */
@DefaultBean
@ApplicationScoped
class NothingLent implements LentFor {
  @Override
  public Map<Long, Lent> of(Long locationId, Collection<Long> programIds) {
    return Map.of();
  }
}
