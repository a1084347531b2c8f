package clinic.stimshelf.web;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.stream.Collectors;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The files a clinic may change: {@code config/} in the folder the program is started in, else the
 * same file as it was packed. Keys are written with dashes ({@code from-memory}); what is left out
 * is {@code null}, {@code false} or 0.
 */
@ApplicationScoped
public class ConfigFiles {
  private static final ObjectMapper YAML =
      YAMLMapper.builder()
          .addModule(new JavaTimeModule())
          .propertyNamingStrategy(PropertyNamingStrategies.KEBAB_CASE)
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_READING_DUP_TREE_KEY)
          .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
          .build();

  private final Path folder;

  ConfigFiles(@ConfigProperty(name = "stimshelf.config", defaultValue = "config") String folder) {
    this.folder = Path.of(folder);
  }

  /** Whether the file stands in the folder or was packed. */
  public boolean has(String name) {
    return Files.isRegularFile(folder.resolve(name)) || packed(name) != null;
  }

  /**
   * Reads a YAML file into a record.
   *
   * @param name within {@code config/}, such as {@code muscles.yaml}
   * @throws IllegalStateException naming file, line and field, if it is missing or does not fit
   */
  public <T> T read(String name, Class<T> type) {
    return parse(name, text(name), type);
  }

  /**
   * The file as text.
   *
   * @throws IllegalStateException if it is neither in the folder nor packed
   */
  public String text(String name) {
    Path file = folder.resolve(name);
    try (InputStream in = Files.isRegularFile(file) ? Files.newInputStream(file) : packed(name)) {
      if (in == null) {
        throw new IllegalStateException("config/" + name + " is missing.");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("config/" + name + " cannot be read: " + e.getMessage(), e);
    }
  }

  /** Reads text of a file; the name stands in what is said about it. */
  public static <T> T parse(String name, String text, Class<T> type) {
    try {
      T read = YAML.readValue(text, type);
      if (read == null) {
        throw new IllegalStateException("config/" + name + " is empty.");
      }
      return read;
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("config/" + name + where(e) + e.getOriginalMessage(), e);
    }
  }

  /**
   * Refuses a file for what a room found wrong in it.
   *
   * @param faults each a sentence
   * @throws IllegalStateException with all of them, if there are any
   */
  public static void refuse(String name, Collection<String> faults) {
    if (!faults.isEmpty()) {
      throw new IllegalStateException("config/" + name + ": " + String.join(" ", faults));
    }
  }

  private static String where(JsonProcessingException e) {
    JsonLocation at = e.getLocation();
    String path =
        e instanceof JsonMappingException mapping
            ? mapping.getPath().stream()
                .map(
                    step ->
                        step.getFieldName() == null
                            ? "entry " + (step.getIndex() + 1)
                            : step.getFieldName())
                .collect(Collectors.joining(" › "))
            : "";
    return (at == null ? "" : ", line " + at.getLineNr())
        + (path.isEmpty() ? "" : " (" + path + ")")
        + ": ";
  }

  private static InputStream packed(String name) {
    return Thread.currentThread().getContextClassLoader().getResourceAsStream("config/" + name);
  }
}
