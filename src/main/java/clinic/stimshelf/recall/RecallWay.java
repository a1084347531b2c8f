package clinic.stimshelf.recall;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

/** Recalls and incidents. Others than managers come to them from where they stand as open. */
@Singleton
class RecallWay implements Way {
  @Override
  public int order() {
    return 65;
  }

  @Override
  public String label() {
    return "Recalls";
  }

  @Override
  public String href() {
    return "/recalls";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.MANAGER);
  }
}
