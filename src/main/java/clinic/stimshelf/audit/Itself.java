package clinic.stimshelf.audit;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;

/** The program acting by itself. */
@DefaultBean
@ApplicationScoped
class Itself implements Actor {
  @Override
  public Long staffId() {
    return null;
  }

  @Override
  public String name() {
    return "Stimshelf";
  }
}
