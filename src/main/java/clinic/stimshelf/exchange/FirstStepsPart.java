package clinic.stimshelf.exchange;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class FirstStepsPart implements SettingsPart {
  @Override
  public int order() {
    return 90;
  }

  @Override
  public String label() {
    return "First steps";
  }

  @Override
  public String words() {
    return "Location and hours, holidays, staff and files of a new clinic.";
  }

  @Override
  public String href() {
    return "/your-clinic";
  }
}
