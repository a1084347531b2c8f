package clinic.stimshelf.desk;

import clinic.stimshelf.codes.udi.Issuer;
import clinic.stimshelf.codes.udi.Udi;
import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.LocalDate;
import java.util.List;

/**
 * What a scan is, and what can be done with it now.
 *
 * @param udi what the device's label says, {@code null} if it was no such label
 * @param matches what the clinic has that goes by it, the likeliest first
 * @param actions what can be done now, the likeliest first
 * @param problems in words: what stands against it, and what to try
 * @param straightTo page to open at once because only one thing can be meant, or {@code null}
 */
public record ScanAnswer(
    ScanKind kind,
    UdiFields udi,
    List<Match> matches,
    List<Action> actions,
    List<String> problems,
    @JsonIgnore String straightTo) {

  public ScanAnswer {
    matches = List.copyOf(matches);
    actions = List.copyOf(actions);
    problems = List.copyOf(problems);
  }

  /** The parts of a device's label that stay in the API. */
  public record UdiFields(
      Issuer issuer,
      String deviceIdentifier,
      String lot,
      String serial,
      LocalDate expiresOn,
      LocalDate madeOn,
      Integer count) {

    static UdiFields of(Udi udi) {
      return udi == null
          ? null
          : new UdiFields(
              udi.issuer(),
              udi.deviceIdentifier(),
              udi.lot(),
              udi.serial(),
              udi.expiresOn(),
              udi.madeOn(),
              udi.count());
    }
  }

  /**
   * One thing that goes by the code.
   *
   * @param kind unit, patient, pad-lot or order
   * @param id tag of a unit, number of anything else
   * @param label what it is called
   * @param person whose name stands beside the label, {@code null} if nobody's
   * @param words what there is to know about it
   * @param state word of its state, {@code null} if it has none
   * @param page address of its page
   */
  public record Match(
      String kind,
      String id,
      String label,
      String person,
      String words,
      String state,
      String page) {}

  /**
   * Something that can be done.
   *
   * @param action word for scripts, such as check-out
   * @param words as a button says it
   * @param page address of the page that does it
   */
  public record Action(String action, String words, String page) {}
}
