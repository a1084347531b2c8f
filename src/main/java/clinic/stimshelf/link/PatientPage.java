package clinic.stimshelf.link;

import clinic.stimshelf.location.UrgentWords;
import java.util.List;

/**
 * The patient's page in their language; no name on it.
 *
 * @param today what to do today, day by day the latest first; today alone has none before it
 * @param notice what today is like where there is nothing to tick, or {@code null}
 */
record PatientPage(
    String lang,
    Lines say,
    String base,
    String date,
    String said,
    Day today,
    String notice,
    boolean allDone,
    List<Day> earlier,
    String nextPads,
    String visit,
    String returnDay,
    boolean late,
    String place,
    String address,
    String phone,
    List<Ahead> week,
    List<String> cautions,
    List<String> hours,
    UrgentWords urgent) {

  /** The page's fixed lines, by key. */
  interface Lines {
    String line(String key);

    String with(String key, String value);
  }

  /** A day with its sessions. */
  record Day(String iso, String words, boolean newPads, List<Box> boxes) {}

  /**
   * A session.
   *
   * @param outcome how it went, in words, or {@code null} while nothing is known
   * @param own whether the patient may take it back here
   */
  record Box(int nth, String label, String outcome, boolean own) {}

  /** A day to come. */
  record Ahead(String day, String sessions, boolean newPads) {}
}
