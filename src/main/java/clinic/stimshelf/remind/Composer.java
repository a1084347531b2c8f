package clinic.stimshelf.remind;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.text.Bidi;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Puts messages into words: one for everything that is due for a patient on a day. */
@ApplicationScoped
class Composer {
  private static final Locale SPANISH = Locale.forLanguageTag("es-US");

  @Inject MessageWords words;
  @Inject Wordings wordings;
  @Inject Locations locations;

  /** Something to be told, with the time it names. */
  record Item(String kind, LocalDate aboutOn, @Nullable Instant at) {

    static Item of(Reminder row) {
      return new Item(row.kind, row.aboutOn, row.usefulUntil);
    }
  }

  /**
   * The message.
   *
   * @param link address of the patient's page, or {@code null} for none
   * @param stop address of the way out, or {@code null} for none
   */
  @Transactional
  Composed compose(
      PatientView patient,
      Long locationId,
      Route route,
      List<Item> items,
      @Nullable String link,
      @Nullable String stop) {
    LocationView location = locations.byId(locationId);
    String language = patient.language().startsWith("es") ? "es" : "en";
    Map<String, String> values = new HashMap<>();
    values.put("clinic", plain(location.name()));
    values.put("phone", location.phone() == null ? "" : plain(location.phone()));
    values.put("name", isolated(plain(addressed(patient, location))));
    List<String> lines = new ArrayList<>();
    lines.add(say(language, "hello", values));
    for (Item item : items) {
      String said = wordings.of(locationId, item.kind(), language);
      if (said != null) {
        dated(language, item, location, values);
        lines.add(MessageWords.fill(said, values));
      }
    }
    if (link != null) {
      values.put("link", link);
      lines.add(say(language, "link", values));
    }
    lines.add(say(language, location.phone() == null ? "questions-no-phone" : "questions", values));
    if (route == Route.TEXT) {
      lines.add(say(language, "stop-text", values));
    } else if (stop != null) {
      values.put("stop", stop);
      lines.add(say(language, "stop", values));
    }
    return new Composed(language, say(language, "subject", values), List.copyOf(lines), stop);
  }

  /** One wording in a whole message, as it would read. */
  @Transactional
  List<String> preview(PatientView example, Long locationId, String kind, String wording) {
    LocationView location = locations.byId(locationId);
    LocalDate day = locations.today(locationId).plusDays(2);
    Item item = new Item(kind, day, locations.closingTime(locationId, day));
    List<String> lines =
        new ArrayList<>(compose(example, locationId, Route.EMAIL, List.of(), null, null).lines());
    Map<String, String> values = new HashMap<>();
    values.put("clinic", plain(location.name()));
    values.put("phone", location.phone() == null ? "" : plain(location.phone()));
    values.put("name", example.name());
    values.put("link", "https://…");
    dated(example.language(), item, location, values);
    lines.add(1, MessageWords.fill(wording, values));
    return lines;
  }

  private static void dated(
      String language, Item item, LocationView location, Map<String, String> values) {
    values.put("day", day(language, item.aboutOn()));
    values.put("time", item.at() == null ? "" : time(language, item.at().atZone(location.zone())));
  }

  /** The lines of a letter about something borrowed. */
  @Transactional
  List<String> letter(PatientView patient, Long locationId, LocalDate dueOn) {
    LocationView location = locations.byId(locationId);
    String language = patient.language().startsWith("es") ? "es" : "en";
    Map<String, String> values = new HashMap<>();
    values.put("clinic", plain(location.name()));
    values.put("phone", location.phone() == null ? "" : plain(location.phone()));
    values.put("name", isolated(plain(addressed(patient, location))));
    values.put("day", day(language, dueOn));
    return List.of(
        say(language, "letter-hello", values),
        say(language, "letter", values),
        say(language, location.phone() == null ? "questions-no-phone" : "questions", values),
        say(language, "letter-close", values));
  }

  private String say(String language, String key, Map<String, String> values) {
    return MessageWords.fill(words.line(language, key), values);
  }

  /** Whoever acts for a minor is the one who reads it. */
  private String addressed(PatientView patient, LocationView location) {
    boolean minor = patient.minorOn(locations.today(location.id()));
    return minor && patient.guardianName() != null ? patient.guardianName() : patient.name();
  }

  /** Nothing that could begin a header or a line of its own. */
  static String plain(String text) {
    return text.replaceAll("[\\p{Cntrl}\\u2028\\u2029]+", " ").strip();
  }

  /** A name written from right to left must not turn the sentence around it. */
  private static String isolated(String name) {
    char[] letters = name.toCharArray();
    return Bidi.requiresBidi(letters, 0, letters.length) ? "\u2068" + name + "\u2069" : name;
  }

  static String day(String language, LocalDate day) {
    return "es".equals(language)
        ? DateTimeFormatter.ofPattern("EEEE d 'de' MMMM", SPANISH).format(day)
        : DateTimeFormatter.ofPattern("EEEE, MMMM d", Locale.US).format(day);
  }

  private static String time(String language, ZonedDateTime at) {
    LocalTime time = at.toLocalTime();
    String clock = DateTimeFormatter.ofPattern("h:mm", Locale.US).format(time);
    boolean morning = time.isBefore(LocalTime.NOON);
    return "es".equals(language)
        ? clock + (morning ? " de la mañana" : " de la tarde")
        : clock + (morning ? " AM" : " PM");
  }
}
