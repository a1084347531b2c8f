package clinic.stimshelf.people;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

@Singleton
class PatientsWay implements Way {
  @Override
  public int order() {
    return 35;
  }

  @Override
  public String label() {
    return "Patients";
  }

  @Override
  public String href() {
    return "/patients";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER);
  }
}
