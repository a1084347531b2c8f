package clinic.stimshelf.location;

import org.jspecify.annotations.Nullable;

/**
 * What patients read for the hours in which nobody answers and for emergencies. Where a location
 * has no words of its own in a language, the English ones stand: better those than none.
 *
 * @param afterHours what to do after hours, or {@code null}
 * @param emergency what to do in an emergency, or {@code null}
 */
public record UrgentWords(@Nullable Said afterHours, @Nullable Said emergency) {

  /** Words with the language they are in, so that a screen reader pronounces them. */
  public record Said(String words, String lang) {}

  static UrgentWords of(LocationView location, LocationSettings settings, String lang) {
    return new UrgentWords(
        said(location.afterHoursWords(), settings, Setting.AFTER_HOURS_WORDS_SPANISH, lang),
        said(location.emergencyWords(), settings, Setting.EMERGENCY_WORDS_SPANISH, lang));
  }

  private static @Nullable Said said(
      @Nullable String english, LocationSettings settings, Setting spanish, String lang) {
    String own = lang.startsWith("es") ? settings.text(spanish) : "";
    if (!own.isBlank()) {
      return new Said(own, "es");
    }
    return english == null || english.isBlank() ? null : new Said(english, "en");
  }

  /** Whether there are words for an emergency that somebody with this language can read. */
  public boolean emergencyIn(String lang) {
    return emergency != null && lang.startsWith(emergency.lang());
  }
}
