package clinic.stimshelf.shelf;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** The points of an inspection, from {@code config/inspection.yaml}, in its order. */
@Startup
@Singleton
public class Checklist {
  static final String FILE = "inspection.yaml";

  /** What comes first: looking, then trying. */
  static final List<String> PARTS = List.of("look-over", "function");

  private final List<Item> items;

  /**
   * One point.
   *
   * @param part look-over or function
   * @param question asked so that yes is good
   */
  public record Item(String key, String part, String question) {

    /** Name of its field in forms and refusals. */
    public String field() {
      return "answers." + key;
    }
  }

  record Listed(List<Item> items) {}

  @Inject
  Checklist(ConfigFiles files) {
    this(files.read(FILE, Listed.class));
  }

  Checklist(Listed listed) {
    items = listed.items() == null ? List.of() : List.copyOf(listed.items());
    List<String> faults = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Item item : items) {
      String name = "Point “" + item.key() + "”";
      if (item.key() == null || !item.key().matches("[a-z0-9-]{1,64}")) {
        faults.add(name + " needs a key of a-z, 0-9 and dashes.");
      }
      if (item.question() == null || item.question().isBlank() || item.question().length() > 300) {
        faults.add(name + " needs a question of at most 300 characters.");
      }
      if (!PARTS.contains(String.valueOf(item.part()))) {
        faults.add(name + " needs a part: look-over or function.");
      }
      if (!seen.add(item.key())) {
        faults.add(name + " stands there twice.");
      }
    }
    if (items.isEmpty()) {
      faults.add("It names no point.");
    }
    ConfigFiles.refuse(FILE, faults);
  }

  public List<Item> items() {
    return items;
  }
}
