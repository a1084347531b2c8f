package clinic.stimshelf.exchange;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class ImportPart implements SettingsPart {
  @Override
  public int order() {
    return 80;
  }

  @Override
  public String label() {
    return "Import and export";
  }

  @Override
  public String words() {
    return "Units, patients, programs and all else in and out as CSV files.";
  }

  @Override
  public String href() {
    return "/settings/import";
  }
}
