package clinic.stimshelf.access;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class StaffPart implements SettingsPart {
  @Override
  public int order() {
    return 20;
  }

  @Override
  public String label() {
    return "Staff";
  }

  @Override
  public String words() {
    return "People, credentials, licenses, sign-in, keys for scripts.";
  }

  @Override
  public String href() {
    return "/settings/staff";
  }
}
