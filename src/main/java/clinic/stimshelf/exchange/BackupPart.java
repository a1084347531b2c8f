package clinic.stimshelf.exchange;

import clinic.stimshelf.web.SettingsPart;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class BackupPart implements SettingsPart {
  @Override
  public int order() {
    return 85;
  }

  @Override
  public String label() {
    return "Backups";
  }

  @Override
  public String words() {
    return "Copies of the whole database, made while people work.";
  }

  @Override
  public String href() {
    return "/settings/backups";
  }
}
