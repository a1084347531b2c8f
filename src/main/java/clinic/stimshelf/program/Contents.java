package clinic.stimshelf.program;

import clinic.stimshelf.web.Refusals;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/** What may stand in a program, and what must stand in it before it is signed. */
final class Contents {
  private static final int MOST_PLACEMENTS = 2;
  private static final int MOST_PAD_LINES = 4;
  private static final int MOST_CHANNELS = 8;
  private static final int MOST_PADS = 32;
  private static final String TYPE_IT = "Type it; nothing is chosen for you.";

  private Contents() {}

  /** Refuses what is wrong; blanks may stand in a draft. */
  static void check(
      Content content,
      Predicate<String> muscleExists,
      Map<String, PadFact> padTypes,
      Refusals refusals) {
    DoseValues dose = content.dose();
    dose.asMap()
        .forEach(
            (field, value) -> {
              if (!field.allows(value)) {
                refusals.add(field.key(), field.refusal());
              }
            });
    if (dose.has(DoseField.CONTRACTIONS) && dose.has(DoseField.MINUTES)) {
      refusals.add(
          "contractions",
          "Contractions and minutes both tell how long a session is.",
          "Leave one of them blank.");
    }
    if (!content.weekdays().isEmpty()
        && dose.whole(DoseField.DAYS_PER_WEEK) != content.weekdays().size()) {
      refusals.add(
          "daysPerWeek",
          content.weekdays().size()
              + " weekdays are named, but "
              + dose.whole(DoseField.DAYS_PER_WEEK)
              + " days a week are given.",
          "Make them agree, or leave one of them blank.");
    }
    rampsFit(dose, refusals);
    placements(content.placements(), muscleExists, refusals);
    pads(content.pads(), padTypes, refusals);
    text("setting", "The setting", content.setting(), 500, refusals);
    text("cautions", "The cautions", content.cautions(), 2000, refusals);
    text("instructions", "The instructions", content.instructions(), 2000, refusals);
  }

  /** Refuses every blank that a signed program may not have. */
  static void complete(Content content, Refusals refusals) {
    DoseValues dose = content.dose();
    for (DoseField field : missing(dose)) {
      if (field == DoseField.CONTRACTIONS) {
        refusals.add(
            "contractions", "How long is a session? Contractions and minutes are blank.", TYPE_IT);
      } else {
        refusals.add(field.key(), field.words() + " is blank.", TYPE_IT);
      }
    }
    if (content.startsOn() == null) {
      refusals.add("startsOn", "The start day is blank.", TYPE_IT);
    }
    if (content.placements().isEmpty()) {
      refusals.add("placements", "No muscle is named.", "Name muscle, side and channels.");
    }
    for (Placement placement : content.placements()) {
      if (placement.side() == null) {
        refusals.add("side", "Which side? A placement names none.", TYPE_IT);
      }
      if (placement.channels() == 0) {
        refusals.add("channels", "How many channels? A placement names none.", TYPE_IT);
      }
    }
    for (PadLine line : content.pads()) {
      if (line.perSession() == 0) {
        refusals.add("perSession", "How many of “" + line.code() + "” lie at once?", TYPE_IT);
      }
    }
    if (content.pads().isEmpty()) {
      refusals.add("pads", "No pads are named.", "Name the pad type and how many lie at once.");
    }
    if (content.setting() == null || content.setting().isBlank()) {
      refusals.add(
          "setting",
          "The unit's setting is blank.",
          "Name the unit's own stored mode that will hold this dose.");
    }
    if (content.dueKind() == null) {
      refusals.add("dueKind", "No due day is chosen.", "Choose one of the three.");
    }
  }

  /** Dose values that are blank and needed, in the order of the form. */
  static List<DoseField> missing(DoseValues dose) {
    List<DoseField> needed =
        new ArrayList<>(
            List.of(
                DoseField.FREQUENCY_HZ,
                DoseField.FREQUENCY_KIND,
                DoseField.ON_SECONDS,
                DoseField.OFF_SECONDS,
                DoseField.RAMP_UP_SECONDS,
                DoseField.SESSIONS_PER_DAY,
                DoseField.DAYS_PER_WEEK,
                DoseField.WEEKS,
                DoseField.INTENSITY));
    if (dose.frequencyKind() != FrequencyKind.BURSTS) {
      needed.add(2, DoseField.PULSE_WIDTH_US);
    }
    boolean ramps =
        dose.numberOrZero(DoseField.RAMP_UP_SECONDS).signum() > 0
            || dose.numberOrZero(DoseField.RAMP_DOWN_SECONDS).signum() > 0;
    if (ramps) {
      needed.add(DoseField.RAMP_INSIDE_ON);
    }
    if (ramps && Boolean.FALSE.equals(dose.yes(DoseField.RAMP_INSIDE_ON))) {
      // Outside the on time the ramp lengthens every cycle; inside it may stay the unit's own.
      needed.add(DoseField.RAMP_DOWN_SECONDS);
    }
    if (!dose.has(DoseField.MINUTES)) {
      needed.add(DoseField.CONTRACTIONS);
    }
    needed.removeIf(dose::has);
    needed.sort(null);
    return needed;
  }

  private static void rampsFit(DoseValues dose, Refusals refusals) {
    if (dose.sure(DoseField.RAMP_INSIDE_ON) && dose.has(DoseField.ON_SECONDS)) {
      if (dose.numberOrZero(DoseField.RAMP_UP_SECONDS)
              .add(dose.numberOrZero(DoseField.RAMP_DOWN_SECONDS))
              .compareTo(dose.number(DoseField.ON_SECONDS))
          > 0) {
        refusals.add(
            "rampUpSeconds",
            "The ramps are longer than the on time they should lie in.",
            "Shorten them, or say that they lie outside.");
      }
    }
  }

  private static void placements(
      List<Placement> placements, Predicate<String> muscleExists, Refusals refusals) {
    if (placements.size() > MOST_PLACEMENTS) {
      refusals.add("placements", "A program has one or two placements.");
    }
    Set<String> seen = new HashSet<>();
    for (Placement placement : placements) {
      if (placement.muscle() == null || !muscleExists.test(placement.muscle())) {
        refusals.add(
            "muscle",
            placement.muscle() == null
                ? "A placement names no muscle."
                : "There is no muscle “" + placement.muscle() + "”.",
            "Choose one of the list.");
      }
      if (placement.channels() < 0 || placement.channels() > MOST_CHANNELS) {
        refusals.add(
            "channels",
            "A placement takes 1 to "
                + MOST_CHANNELS
                + " channels, not "
                + placement.channels()
                + ".");
      }
      text("where", "The place of the pads", placement.where(), 500, refusals);
      if (!seen.add(placement.muscle() + " " + placement.side())) {
        refusals.add("placements", "Both placements name the same muscle and side.");
      }
    }
  }

  private static void pads(List<PadLine> pads, Map<String, PadFact> padTypes, Refusals refusals) {
    if (pads.size() > MOST_PAD_LINES) {
      refusals.add("pads", "A program has at most " + MOST_PAD_LINES + " kinds of pads.");
    }
    Set<String> seen = new HashSet<>();
    for (PadLine line : pads) {
      if (line.code() == null || !padTypes.containsKey(line.code())) {
        refusals.add(
            "pads",
            line.code() == null
                ? "A line of pads names no pad type."
                : "There is no pad type “" + line.code() + "” in use.",
            "Choose one of the list.");
      } else if (!seen.add(line.code())) {
        refusals.add(
            "pads", "The pad type “" + line.code() + "” stands there twice.", "Add the two up.");
      }
      if (line.perSession() < 0 || line.perSession() > MOST_PADS) {
        refusals.add(
            "perSession",
            "From 1 to " + MOST_PADS + " pads lie at once, not " + line.perSession() + ".");
      }
    }
  }

  private static void text(String field, String what, String text, int most, Refusals refusals) {
    if (text != null && text.length() > most) {
      refusals.add(field, what + " may have at most " + most + " characters.");
    }
  }
}
