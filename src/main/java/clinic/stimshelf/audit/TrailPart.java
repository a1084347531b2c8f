package clinic.stimshelf.audit;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class TrailPart implements SettingsPart {
  @Override
  public int order() {
    return 80;
  }

  @Override
  public String label() {
    return "Trail";
  }

  @Override
  public String words() {
    return "Who did what to what, when, and what it was before and after.";
  }

  @Override
  public String href() {
    return "/settings/trail";
  }
}
