package clinic.stimshelf.people;

import clinic.stimshelf.people.ScreeningStatus.Open;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Reason;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The rule of screening, without a database: what stands against stimulating a region and side on a
 * day.
 *
 * @param asked the questions asked for the region
 * @param home whether the unit goes home
 * @param staleDays after how many days a screening is asked again
 */
record Judgement(
    Collection<Question> asked, BodyRegion region, boolean home, LocalDate on, int staleDays) {

  /** A confirmed answer. */
  record Given(Answer answer, String note, boolean accepted) {}

  /**
   * A screening of the region.
   *
   * @param outdatedReason why it no longer holds; {@code null} while it does
   */
  record Screened(
      Long id, LocalDate day, Side side, String outdatedReason, Map<String, Given> answers) {}

  /** A clearance; {@code region} and {@code side} are {@code null} where it holds for all. */
  record Cleared(String question, String region, Side side, LocalDate from, LocalDate until) {}

  /**
   * @param newestFirst the screenings of the region that nothing superseded
   */
  ScreeningStatus of(Side side, List<Screened> newestFirst, List<Cleared> clearances) {
    Collector found = new Collector();
    Map<Screened, List<Side>> seen = new LinkedHashMap<>();
    for (Side single : side.single()) {
      Optional<Screened> screened =
          newestFirst.stream().filter(one -> one.side().covers(single)).findFirst();
      if (screened.isEmpty()) {
        found.stale(
            "No screening of the " + region.words(single) + " is on record.",
            "A therapist screens the patient for it first.");
      } else {
        seen.computeIfAbsent(screened.get(), one -> new ArrayList<>()).add(single);
      }
    }
    seen.forEach((screened, sides) -> weigh(screened, sides, clearances, found));
    return found.status(seen.keySet().stream().map(Screened::id).findFirst().orElse(null));
  }

  private void weigh(
      Screened screened, List<Side> sides, List<Cleared> clearances, Collector found) {
    String what = "The screening of the " + region.words(screened.side());
    if (ChronoUnit.DAYS.between(screened.day(), on) > staleDays) {
      found.stale(
          what + " on " + Days.full(screened.day()) + " is more than " + staleDays + " days old.",
          "A therapist screens again.");
    }
    if (screened.outdatedReason() != null) {
      found.stale(what + " no longer holds: " + screened.outdatedReason(), "Screen again.");
    }
    for (Question question : asked) {
      Given given = screened.answers().get(question.key());
      if (given == null) {
        if (home || !question.homeOnly()) {
          found.stale(what + " lacks an answer: " + question.ask(), "A therapist screens again.");
        }
        continue;
      }
      Effect effect = question.effectOf(given.answer(), region, home);
      boolean cleared = clearances.stream().anyMatch(one -> lifts(one, question, sides));
      if (effect != null && !cleared) {
        found.open(effect, question, given);
      }
    }
  }

  private boolean lifts(Cleared clearance, Question question, List<Side> sides) {
    return question.clearedBy() != null
        && clearance.question().equals(question.key())
        && (clearance.region() == null || clearance.region().equals(region.key()))
        && (clearance.side() == null || sides.stream().allMatch(clearance.side()::covers))
        && !on.isBefore(clearance.from())
        && (clearance.until() == null || !on.isAfter(clearance.until()));
  }

  private static final class Collector {
    private final List<Open> contraindications = new ArrayList<>();
    private final List<Open> holds = new ArrayList<>();
    private final List<Open> precautions = new ArrayList<>();
    private final List<Reason> staleness = new ArrayList<>();
    private final List<Reason> why = new ArrayList<>();

    void stale(String message, String cure) {
      staleness.add(new Reason("screening", message, cure));
    }

    void open(Effect effect, Question question, Given given) {
      Open open = new Open(question.key(), question.ask(), given.note());
      String answered = question.ask() + " — " + given.answer().words();
      switch (effect) {
        case CONTRAINDICATION -> {
          contraindications.add(open);
          add("Contraindicated: " + answered + ".", contraindicationCure(question));
        }
        case HOLD -> {
          holds.add(open);
          add(
              "On hold: " + answered + ".",
              "Record the clearance: who (" + question.clearedBy() + "), when and for what.");
        }
        case PRECAUTION -> {
          if (!given.accepted()) {
            precautions.add(open);
            add(
                "Precaution not accepted: " + answered + ".",
                "A licensed PT accepts it with a reason.");
          }
        }
        case INFORMATION -> {}
      }
    }

    private static String contraindicationCure(Question question) {
      return question.clearedBy() == null
          ? "Don't stimulate here; screen again when it has passed."
          : "Don't stimulate here, unless a clearance is recorded from "
              + question.clearedBy()
              + ".";
    }

    private void add(String message, String cure) {
      why.add(new Reason("screening", message, cure));
    }

    ScreeningStatus status(Long screeningId) {
      List<Reason> all = new ArrayList<>(staleness);
      all.addAll(why);
      return new ScreeningStatus(
          staleness.isEmpty(),
          screeningId,
          List.copyOf(contraindications),
          List.copyOf(holds),
          List.copyOf(precautions),
          List.copyOf(all));
    }
  }
}
