package clinic.stimshelf.shelf;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

@Singleton
class UnitsWay implements Way {
  @Override
  public int order() {
    return 40;
  }

  @Override
  public String label() {
    return "Units";
  }

  @Override
  public String href() {
    return "/units";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER);
  }
}
