package clinic.stimshelf.remind;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** How a location says things: its own wording, or the file's. */
@ApplicationScoped
class Wordings {
  static final int LONGEST = 600;

  @Inject WordingRows rows;
  @Inject MessageWords words;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;

  /** What the location says about a step, with its places still open; {@code null} if nothing. */
  @Transactional
  @Nullable String of(Long locationId, String kind, String language) {
    Wording own = row(locationId, kind, language);
    return own == null ? proposed(locationId, kind, language) : own.words;
  }

  @Nullable String proposed(Long locationId, String kind, String language) {
    String named = mayTell(locationId) ? words.line(language, kind + MessageWords.NAMED) : null;
    return named == null ? words.line(language, kind) : named;
  }

  boolean own(Long locationId, String kind, String language) {
    return row(locationId, kind, language) != null;
  }

  boolean mayTell(Long locationId) {
    return locations.settings(locationId).yes(Setting.REMINDER_TREATMENT_WORDS);
  }

  /** What stands against a wording. */
  void check(Long locationId, @Nullable String text, Refusals refusals) {
    if (text == null || text.isBlank()) {
      return;
    }
    if (text.length() > LONGEST) {
      refusals.add("words", "A wording has at most " + LONGEST + " characters.");
    }
    for (String fault : words.wrong(text, mayTell(locationId))) {
      refusals.add("words", fault);
    }
  }

  /**
   * Says something in the location's own words from now on; a blank goes back to what is proposed.
   *
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public void choose(Long locationId, String kind, String language, @Nullable String text) {
    Refusals refusals = new Refusals();
    if (words.line("en", kind) == null || !List.of("en", "es").contains(language)) {
      refusals.add("kind", "There is no such message.");
    }
    check(locationId, text, refusals);
    refusals.throwIfAny();
    Wording row = row(locationId, kind, language);
    String before = row == null ? null : row.words;
    if (text == null || text.isBlank()) {
      if (row != null) {
        rows.delete(row);
      }
    } else {
      if (row == null) {
        row = new Wording();
        row.locationId = locationId;
        row.kind = kind;
        row.language = language;
      }
      row.words = text.strip();
      rows.persist(row);
    }
    trail.record(
        Subject.of("location", locations.byId(locationId).code()),
        locationId,
        "wording changed",
        times.now(),
        said(kind, language, before),
        said(kind, language, text));
  }

  private static Map<String, Object> said(String kind, String language, @Nullable String text) {
    Map<String, Object> said = new HashMap<>();
    said.put("message", kind + ", " + language);
    said.put("words", text);
    return said;
  }

  private @Nullable Wording row(Long locationId, String kind, String language) {
    return rows.find("locationId = ?1 and kind = ?2 and language = ?3", locationId, kind, language)
        .firstResult();
  }
}
