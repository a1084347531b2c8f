package clinic.stimshelf.location;

import java.math.BigDecimal;
import java.time.LocalTime;
import java.util.EnumMap;
import java.util.Map;

/** How a location wants things done: the proposal of {@link Setting} unless it chose otherwise. */
public final class LocationSettings {
  private final Map<Setting, String> chosen;

  LocationSettings(Map<Setting, String> chosen) {
    this.chosen = new EnumMap<>(Setting.class);
    this.chosen.putAll(chosen);
  }

  /** Every setting as proposed. */
  public static LocationSettings proposed() {
    return new LocationSettings(Map.of());
  }

  public String text(Setting setting) {
    return chosen.getOrDefault(setting, setting.proposed());
  }

  public int whole(Setting setting) {
    return Integer.parseInt(text(setting));
  }

  public double number(Setting setting) {
    return new BigDecimal(text(setting)).doubleValue();
  }

  public LocalTime time(Setting setting) {
    return LocalTime.parse(text(setting));
  }

  public boolean yes(Setting setting) {
    return "yes".equals(text(setting));
  }
}
