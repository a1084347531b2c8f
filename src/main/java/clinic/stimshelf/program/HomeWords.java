package clinic.stimshelf.program;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.IllegalFormatException;
import java.util.List;
import java.util.Map;

/**
 * The words of the home instructions and of the patient's own page, out of {@code
 * config/home-words.yaml}.
 */
@Startup
@Singleton
public class HomeWords {
  static final String FILE = "home-words.yaml";

  private final Map<String, String> english;
  private final Map<String, String> spanish;

  record WordFile(Map<String, String> english, Map<String, String> spanish) {}

  @Inject
  HomeWords(ConfigFiles files) {
    this(files.read(FILE, WordFile.class));
  }

  /**
   * @throws IllegalStateException if a line is missing in one of the languages
   */
  HomeWords(WordFile file) {
    english = file.english() == null ? Map.of() : Map.copyOf(file.english());
    spanish = file.spanish() == null ? Map.of() : Map.copyOf(file.spanish());
    List<String> faults = new ArrayList<>();
    english.keySet().stream()
        .filter(key -> !spanish.containsKey(key))
        .forEach(key -> faults.add("“" + key + "” is missing in Spanish."));
    spanish.keySet().stream()
        .filter(key -> !english.containsKey(key))
        .forEach(key -> faults.add("“" + key + "” is missing in English."));
    ConfigFiles.refuse(FILE, faults);
  }

  /** Both languages by line, for comparing them. */
  Map<String, String> all(String language) {
    return "es".equals(language) ? spanish : english;
  }

  /**
   * A line in the language, with what the program says put in.
   *
   * @param language {@code es} for Spanish, else English
   * @throws IllegalStateException if the file has no such line, or it does not take these values
   */
  public String say(String language, String key, Object... values) {
    String line = all(language).get(key);
    if (line == null) {
      throw new IllegalStateException("config/" + FILE + " has no line “" + key + "”.");
    }
    try {
      return values.length == 0 ? line : String.format(line, values);
    } catch (IllegalFormatException wrong) {
      throw new IllegalStateException("config/" + FILE + ", “" + key + "”: " + line, wrong);
    }
  }
}
