package clinic.stimshelf.whatif;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

/** The calculators in the navigation. */
@Singleton
class NumbersWay implements Way {
  @Override
  public int order() {
    return 65;
  }

  @Override
  public String label() {
    return "Try other numbers";
  }

  @Override
  public String href() {
    return "/numbers";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.THERAPIST, Roles.MANAGER);
  }
}
