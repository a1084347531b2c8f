package clinic.stimshelf.exchange;

import io.smallrye.config.ConfigSourceContext;
import io.smallrye.config.ConfigSourceFactory;
import io.smallrye.config.ConfigValue;
import io.smallrye.config.PropertiesConfigSource;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.eclipse.microprofile.config.spi.ConfigSource;

/**
 * Says at the start which clinic is opened: the demo until somebody has set up their own, which
 * leaves a marker file beside the data. Whatever is configured otherwise counts more.
 */
public class ChosenClinic implements ConfigSourceFactory {
  static final String CLINIC = "stimshelf.clinic";
  static final String DEMO = "stimshelf.demo";
  static final String DATA = "stimshelf.data";
  static final String FOLDER = "stimshelf.folder";
  static final String OWN = "clinic";
  static final String MARKER = "own-clinic.txt";

  /** Above the program's own application.properties (250), below the clinic's (260). */
  private static final int ORDINAL = 255;

  /** Below it stand values that the build has noted down, which nobody chose. */
  private static final int LEAST_CHOSEN = 250;

  @Override
  public Iterable<ConfigSource> getConfigSources(ConfigSourceContext context) {
    Map<String, String> chosen = new HashMap<>();
    Path data = Path.of(given(context, DATA).orElse("data"));
    // The database takes no path that is silently relative.
    chosen.put(FOLDER, data.isAbsolute() ? data.toString() : "./" + data);
    String clinic = given(context, CLINIC).orElse(null);
    if (clinic == null) {
      clinic = Files.exists(marker(data)) ? OWN : "demo";
      chosen.put(CLINIC, clinic);
    }
    if (given(context, DEMO).isEmpty()) {
      // A database on a server is somebody's own; a demo there must be asked for.
      ConfigValue kind = context.getValue("quarkus.datasource.db-kind");
      boolean file = kind == null || kind.getValue() == null || kind.getValue().equals("h2");
      chosen.put(DEMO, String.valueOf(file && clinic.equals("demo")));
    }
    return List.of(new PropertiesConfigSource(chosen, "the chosen clinic", ORDINAL));
  }

  static Path marker(Path data) {
    return data.resolve(OWN).resolve(MARKER);
  }

  @Override
  public OptionalInt getPriority() {
    return OptionalInt.of(ORDINAL);
  }

  private static Optional<String> given(ConfigSourceContext context, String name) {
    ConfigValue value = context.getValue(name);
    return value == null || value.getConfigSourceOrdinal() < LEAST_CHOSEN
        ? Optional.empty()
        : Optional.ofNullable(value.getValue());
  }
}
