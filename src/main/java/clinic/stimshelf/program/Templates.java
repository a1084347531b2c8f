package clinic.stimshelf.program;

import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The published examples of {@code config/program-templates.yaml}, in its order. */
@Startup
@Singleton
class Templates {
  static final String FILE = "program-templates.yaml";

  private final Map<String, Template> templates = new LinkedHashMap<>();

  record TemplateFile(Map<String, String> sources, List<Entry> templates) {}

  record Entry(
      String key,
      String title,
      String muscle,
      List<String> sources,
      Map<String, Printed> values,
      String start,
      String note) {}

  record Printed(String is, String between, String from, Boolean fromMemory, Boolean derived) {}

  @Inject
  Templates(ConfigFiles files, Muscles muscles) {
    this(files.read(FILE, TemplateFile.class), muscles);
  }

  /**
   * @throws IllegalStateException naming everything that is wrong in the file
   */
  Templates(TemplateFile file, Muscles muscles) {
    List<String> faults = new ArrayList<>();
    Map<String, String> sources = file.sources() == null ? Map.of() : file.sources();
    for (Entry entry : file.templates() == null ? List.<Entry>of() : file.templates()) {
      String name = "Template “" + entry.key() + "”";
      if (entry.key() == null || !entry.key().matches("[a-z0-9-]{1,64}")) {
        faults.add(name + " needs a “key” of a-z, 0-9 and dashes.");
      }
      if (entry.title() == null || entry.title().isBlank()) {
        faults.add(name + " needs a “title”.");
      }
      if (muscles.find(String.valueOf(entry.muscle())).isEmpty()) {
        faults.add(name + " names a muscle that is not listed: “" + entry.muscle() + "”.");
      }
      if (entry.sources() == null || entry.sources().isEmpty()) {
        faults.add(name + " names no source.");
        continue;
      }
      for (String source : entry.sources()) {
        if (!sources.containsKey(source)) {
          faults.add(name + " names a source that is not listed: “" + source + "”.");
        }
      }
      Map<DoseField, Template.Published> values = values(name, entry, sources, faults);
      Template made =
          new Template(
              entry.key(),
              entry.title(),
              entry.muscle(),
              entry.sources().stream().map(sources::get).toList(),
              values,
              entry.start(),
              entry.note());
      if (templates.put(entry.key(), made) != null) {
        faults.add(name + " stands there twice.");
      }
    }
    ConfigFiles.refuse(FILE, faults);
  }

  List<Template> all() {
    return List.copyOf(templates.values());
  }

  Optional<Template> find(String key) {
    return key == null ? Optional.empty() : Optional.ofNullable(templates.get(key));
  }

  private static Map<DoseField, Template.Published> values(
      String name, Entry entry, Map<String, String> sources, List<String> faults) {
    Map<DoseField, Template.Published> values = new EnumMap<>(DoseField.class);
    Map<String, Printed> printed = entry.values() == null ? Map.of() : entry.values();
    printed.forEach(
        (key, value) -> {
          Optional<DoseField> field = DoseField.byFileKey(key);
          String from = value.from() == null ? entry.sources().get(0) : value.from();
          if (field.isEmpty()) {
            faults.add(name + " has a value that does not exist: “" + key + "”.");
          } else if ((value.is() == null) == (value.between() == null)) {
            faults.add(name + ", “" + key + "”, needs either “is” or “between”.");
          } else if (!sources.containsKey(from)) {
            faults.add(
                name + ", “" + key + "”, names a source that is not listed: “" + from + "”.");
          } else {
            try {
              values.put(
                  field.get(),
                  new Template.Published(
                      value.is() == null ? null : field.get().parse(value.is()),
                      value.between(),
                      sources.get(from),
                      Boolean.TRUE.equals(value.fromMemory()),
                      Boolean.TRUE.equals(value.derived())));
            } catch (IllegalArgumentException wrong) {
              faults.add(name + ": " + wrong.getMessage());
            }
          }
        });
    Template.Published frequency = values.get(DoseField.FREQUENCY_HZ);
    if (frequency != null) {
      values.putIfAbsent(
          DoseField.FREQUENCY_KIND,
          new Template.Published(
              FrequencyKind.PULSES, null, frequency.source(), frequency.fromMemory(), false));
    }
    return values;
  }
}
