package clinic.stimshelf.people;

/**
 * A muscle group that a program may treat.
 *
 * @param english the words on pages and home sheets
 * @param placement usual place of the pads, in words for the person who lays them
 */
public record Muscle(
    String key,
    String english,
    String spanish,
    String region,
    String placement,
    String placementSpanish) {

  /** The name in the person's language: Spanish for {@code es}, else English. */
  public String words(String language) {
    return "es".equals(language) ? spanish : english;
  }

  /** The usual placement in the person's language. */
  public String placementWords(String language) {
    return "es".equals(language) ? placementSpanish : placement;
  }
}
