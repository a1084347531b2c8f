package clinic.stimshelf.location;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class LocationPart implements SettingsPart {
  @Override
  public int order() {
    return 10;
  }

  @Override
  public String label() {
    return "Locations";
  }

  @Override
  public String words() {
    return "Hours, half days and closures, rooms, levels and rules of each location.";
  }

  @Override
  public String href() {
    return "/settings/locations";
  }
}
