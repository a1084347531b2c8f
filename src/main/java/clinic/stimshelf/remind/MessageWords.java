package clinic.stimshelf.remind;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What messages say, out of {@code config/message-words.yaml}, and what they may not say. */
@Startup
@Singleton
class MessageWords {
  static final String FILE = "message-words.yaml";
  static final Set<String> PLACES =
      Set.of("clinic", "phone", "day", "time", "link", "name", "stop");
  static final String NAMED = "-named";
  private static final Pattern PLACE = Pattern.compile("\\{([^{}]*)\\}");

  /** Every line the program itself asks for. */
  private static final Set<String> NEEDED =
      Set.of(
          "subject",
          "hello",
          "link",
          "questions",
          "questions-no-phone",
          "stop",
          "stop-text",
          "letter-hello",
          "letter",
          "letter-close");

  private final WordFile file;

  record WordFile(List<String> telling, Map<String, String> english, Map<String, String> spanish) {}

  @Inject
  MessageWords(ConfigFiles files) {
    this(files.read(FILE, WordFile.class));
  }

  /**
   * @throws IllegalStateException naming every line that is missing or says too much
   */
  MessageWords(WordFile file) {
    this.file = file;
    List<String> faults = new ArrayList<>();
    Set<String> keys = new TreeSet<>(NEEDED);
    keys.addAll(file.english().keySet());
    keys.addAll(file.spanish().keySet());
    for (String key : keys) {
      for (String language : List.of("en", "es")) {
        String words = all(language).get(key);
        if (words == null) {
          faults.add("“" + key + "” is missing in " + language + ".");
        } else {
          faults.addAll(wrong(words, key.endsWith(NAMED)));
        }
      }
    }
    ConfigFiles.refuse(FILE, faults);
  }

  /** The line, or {@code null}. */
  String line(String language, String key) {
    return all(language).get(key);
  }

  /** What is wrong with a wording, as sentences. */
  List<String> wrong(String words, boolean mayTell) {
    List<String> faults = new ArrayList<>();
    Matcher places = PLACE.matcher(words);
    while (places.find()) {
      if (!PLACES.contains(places.group(1))) {
        faults.add(
            "There is nothing to put in for “{"
                + places.group(1)
                + "}”. Known: {clinic}, {phone}, {day}, {time}, {link}.");
      }
    }
    if (words.chars().anyMatch(c -> c < 0x20 && c != '\n' && c != '\r' || c == 0x7f)) {
      faults.add("“" + words + "” holds a control character.");
    }
    if (!mayTell) {
      String small = words.toLowerCase(Locale.ROOT);
      file.telling().stream()
          .filter(small::contains)
          .forEach(
              word ->
                  faults.add(
                      "“"
                          + word
                          + "” would tell others what somebody is treated for. Leave it out, or let"
                          + " the location's settings allow it."));
    }
    return faults;
  }

  static String fill(String words, Map<String, String> values) {
    return PLACE
        .matcher(words)
        .replaceAll(
            found -> Matcher.quoteReplacement(values.getOrDefault(found.group(1), found.group())));
  }

  private Map<String, String> all(String language) {
    return "es".equals(language) ? file.spanish() : file.english();
  }
}
