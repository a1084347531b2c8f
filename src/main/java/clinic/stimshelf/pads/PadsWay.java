package clinic.stimshelf.pads;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

/** Pads in the navigation. */
@Singleton
class PadsWay implements Way {
  @Override
  public int order() {
    return 50;
  }

  @Override
  public String label() {
    return "Pads";
  }

  @Override
  public String href() {
    return "/pads";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.FRONT_DESK, Roles.MANAGER);
  }
}
