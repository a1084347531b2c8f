package clinic.stimshelf.codes.labels;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The content of {@code config/label-sizes.yaml}, in its order.
 *
 * @param labels at least one; no key twice
 */
public record LabelStocks(List<LabelStock> labels) {

  public LabelStocks {
    // An empty file has none, whatever the type promises.
    labels = labels == null ? List.of() : List.copyOf(labels);
    if (labels.isEmpty()) {
      throw new IllegalArgumentException("There is no label to choose: list at least one.");
    }
    Set<String> keys = new HashSet<>();
    for (LabelStock label : labels) {
      if (!keys.add(label.key())) {
        throw new IllegalArgumentException("Label “%s” stands there twice.".formatted(label.key()));
      }
    }
  }

  /** The stock with this key. */
  public Optional<LabelStock> find(String key) {
    return labels.stream().filter(label -> label.key().equals(key)).findFirst();
  }
}
