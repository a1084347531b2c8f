package clinic.stimshelf.program;

import java.time.LocalDate;
import java.util.List;

/** What a therapist is needed for in another room. Rooms below implement it. */
public interface NeedsMeSource {

  /**
   * Whose matters are asked for.
   *
   * @param therapistId {@code null} for everybody at the location
   */
  record Ask(Long locationId, Long therapistId, LocalDate today) {}

  /**
   * A group of matters of one kind.
   *
   * @param order its place: reports to stop 10, skin and pads 20, behind plan 30, not logged 35,
   *     given up? 38, ends soon 40, waiting for a unit 50, to be done before a unit leaves 60,
   *     drafts 70
   */
  record Section(int order, String title, List<Line> lines) {}

  /**
   * A matter.
   *
   * @param when a day or a span in short words
   * @param name of the patient, blanked by the privacy button
   * @param what it is about, without the name
   * @param why the figures behind it, or {@code null}
   * @param href where it is dealt with
   * @param action verb and thing, as the link says it
   * @param endHref where the program can be ended as abandoned, or {@code null}
   */
  record Line(
      String when,
      String name,
      String chartNumber,
      String what,
      String why,
      String href,
      String action,
      String endHref) {

    public Line(
        String when,
        String name,
        String chartNumber,
        String what,
        String why,
        String href,
        String action) {
      this(when, name, chartNumber, what, why, href, action, null);
    }
  }

  List<Section> sections(Ask ask);
}
