package clinic.stimshelf.program;

import java.util.List;

/**
 * The home instructions in the patient's language, ready to print.
 *
 * @param lang tag of the language
 * @param draft words that it is not signed, or {@code null}
 * @param parts the sections in order
 * @param places where the pads go, each with its sketch
 * @param tick heading and columns of the days to tick
 */
record HomeSheet(
    String lang,
    String title,
    String forWhom,
    String draft,
    String first,
    List<Part> parts,
    String placesTitle,
    List<Place> places,
    String tick,
    List<String> columns,
    List<Day> days) {

  /** A section: its heading and sentences. */
  record Part(String title, List<String> sentences, boolean grave) {}

  /**
   * A placement.
   *
   * @param svg the sketch, or {@code null}
   * @param spoken what the sketch shows
   */
  record Place(String title, String words, String svg, String spoken) {}

  /** A day to tick: a box for each session. */
  record Day(String day, List<Integer> boxes, String note) {}
}
