package clinic.stimshelf.location;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Set;

/** Settings in the navigation. */
@ApplicationScoped
class SettingsWay implements Way {
  @Override
  public int order() {
    return 90;
  }

  @Override
  public String label() {
    return "Settings";
  }

  @Override
  public String href() {
    return "/settings";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.MANAGER);
  }
}
