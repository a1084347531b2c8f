package clinic.stimshelf.appointments;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

@Singleton
class ScheduleWay implements Way {
  @Override
  public int order() {
    return 30;
  }

  @Override
  public String label() {
    return "Schedule";
  }

  @Override
  public String href() {
    return "/schedule";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER);
  }
}
