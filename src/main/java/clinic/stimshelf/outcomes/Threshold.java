package clinic.stimshelf.outcomes;

import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Setting;

/**
 * The limb symmetry a clinic looks for: its own choice, no rule of ours.
 *
 * @param exactlyCounts whether exactly that many percent have come to it
 */
public record Threshold(double percent, boolean exactlyCounts) {

  static Threshold of(LocationSettings settings) {
    return new Threshold(
        settings.number(Setting.LIMB_SYMMETRY_PERCENT), settings.yes(Setting.LIMB_SYMMETRY_MET_AT));
  }

  /** In words: “at least 90 %”. */
  public String words() {
    String number = percent == Math.rint(percent) ? String.valueOf((long) percent) : "" + percent;
    return (exactlyCounts ? "at least " : "above ") + number + " %";
  }
}
