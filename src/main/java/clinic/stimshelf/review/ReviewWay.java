package clinic.stimshelf.review;

import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import jakarta.inject.Singleton;
import java.util.Set;

/** Where it went, and what to change: what managers look at once a week or a quarter. */
@Singleton
class ReviewWay implements Way {
  @Override
  public int order() {
    return 60;
  }

  @Override
  public String label() {
    return "Review";
  }

  @Override
  public String href() {
    return "/review";
  }

  @Override
  public Set<String> roles() {
    return Set.of(Roles.MANAGER);
  }
}
