package clinic.stimshelf.access;

import clinic.stimshelf.web.NotFound;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;

/** What a manager sees of the staff: those of their own locations, and those of none yet. */
@ApplicationScoped
class ManagedStaff {
  @Inject Staff staff;

  @Inject SignedIn signedIn;

  List<StaffView> mine() {
    return staff.all().stream().filter(this::seen).toList();
  }

  /**
   * @throws NotFound if there is none such that this manager sees
   */
  StaffView byId(String id) {
    if (!id.matches("\\d{1,18}")) {
      throw new NotFound("There is no such staff member.");
    }
    StaffView view = staff.byId(Long.valueOf(id));
    if (!seen(view)) {
      throw new NotFound("There is no such staff member.");
    }
    return view;
  }

  private boolean seen(StaffView view) {
    return view.locationIds().isEmpty() || view.locationIds().stream().anyMatch(signedIn::mayActAt);
  }
}
