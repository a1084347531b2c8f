package clinic.stimshelf.remind;

import clinic.stimshelf.web.ConfigFiles;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * {@code config/reminder-ladder.yaml}: the steps of the ladder as the clinic wants them.
 *
 * @param locations by a location's code, its own steps instead
 */
record LadderFile(List<Step> steps, Map<String, List<Step>> locations) {
  static final String NAME = "reminder-ladder.yaml";
  static final String MESSAGE = "message";
  static final String CALL = "call";
  static final String LETTER = "letter";
  static final String TASK = "task";
  private static final Set<String> CHANNELS = Set.of(MESSAGE, CALL, LETTER, TASK);

  /** What a step's days count from. */
  enum Anchor {
    CHECK_OUT,
    MIDDLE,
    PAD_CHANGE,
    DUE,
    APPOINTMENT
  }

  /**
   * A step.
   *
   * @param days from the anchor; negative is before it
   * @param callsToo whether it becomes a call where the patient gets no messages
   */
  record Step(String key, Anchor anchor, int days, String channel, boolean callsToo, String words) {

    boolean after() {
      return days > 0;
    }
  }

  static LadderFile read(ConfigFiles files) {
    LadderFile file = files.read(NAME, LadderFile.class);
    ConfigFiles.refuse(NAME, file.faults());
    return file;
  }

  List<Step> at(String locationCode) {
    List<Step> own = locations == null ? null : locations.get(locationCode);
    return own != null ? own : steps == null ? List.of() : steps;
  }

  private List<String> faults() {
    List<String> faults = new ArrayList<>(faults(steps));
    if (locations != null) {
      locations.values().forEach(own -> faults.addAll(faults(own)));
    }
    return faults;
  }

  private static List<String> faults(List<Step> steps) {
    List<String> faults = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Step step : steps == null ? List.<Step>of() : steps) {
      if (step.key() == null || !step.key().matches("[a-z-]{1,40}") || !seen.add(step.key())) {
        faults.add(
            "Each step needs a key of its own in small letters, unlike “" + step.key() + "”.");
      }
      if (step.anchor() == null) {
        faults.add(
            "Step “"
                + step.key()
                + "” needs an anchor: check_out, middle, pad_change, due, appointment.");
      }
      if (step.channel() == null || !CHANNELS.contains(step.channel())) {
        faults.add("Step “" + step.key() + "” needs a channel: message, call, letter or task.");
      }
      if (step.days() < -365 || step.days() > 365) {
        faults.add("Step “" + step.key() + "” lies more than a year from its anchor.");
      }
      if (step.words() == null || step.words().isBlank() || step.words().length() > 200) {
        faults.add("Step “" + step.key() + "” needs words of at most 200 characters.");
      }
    }
    return faults;
  }
}
