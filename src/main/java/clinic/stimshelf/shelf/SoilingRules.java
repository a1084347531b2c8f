package clinic.stimshelf.shelf;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Which products count after which soiling, from {@code config/soiling.yaml}. */
@Startup
@Singleton
public class SoilingRules {
  static final String FILE = "soiling.yaml";

  private final Map<Soiling, Rule> rules = new EnumMap<>(Soiling.class);
  private final WipeProducts products;

  /**
   * @param products keys of those that count
   * @param source where the rule comes from
   */
  public record Rule(String key, List<String> products, String source) {}

  record Listed(List<Rule> rules) {}

  @Inject
  SoilingRules(ConfigFiles files, WipeProducts products) {
    this(files.read(FILE, Listed.class), products);
  }

  SoilingRules(Listed listed, WipeProducts products) {
    this.products = products;
    List<String> faults = new ArrayList<>();
    for (Rule rule : listed.rules() == null ? List.<Rule>of() : listed.rules()) {
      String name = "Rule “" + rule.key() + "”";
      try {
        if (rules.put(Soiling.of(rule.key()), rule) != null) {
          faults.add(name + " stands there twice.");
        }
      } catch (IllegalArgumentException unknown) {
        faults.add(name + " is unknown: " + unknown.getMessage());
      }
      if (rule.products() == null || rule.products().isEmpty()) {
        faults.add(name + " names no product.");
      } else {
        rule.products().stream()
            .filter(key -> products.find(key).isEmpty())
            .forEach(key -> faults.add(name + ": no product has the key “" + key + "”."));
      }
      if (rule.source() == null || rule.source().isBlank()) {
        faults.add(name + " needs a source, or the words: common practice, no source.");
      }
    }
    for (Soiling soiling : Soiling.values()) {
      if (!rules.containsKey(soiling)) {
        faults.add("There is no rule “" + soiling.word() + "”.");
      }
    }
    if (faults.isEmpty() && allowed(List.of(Soiling.values())).isEmpty()) {
      faults.add("One product at least must stand under every rule: a unit may need all of them.");
    }
    ConfigFiles.refuse(FILE, faults);
  }

  /** The products that count for a unit with all of these, in the order of the list. */
  public List<WipeProducts.Product> allowed(Collection<Soiling> soiling) {
    return products.all().stream()
        .filter(
            product ->
                soiling.stream().allMatch(one -> rules.get(one).products().contains(product.key())))
        .toList();
  }

  /** What a soiled unit is wiped with, in words. */
  public String wipeWith(UnitView unit) {
    return "wipe with "
        + allowed(unit.soiling()).stream()
            .map(WipeProducts.Product::name)
            .collect(Collectors.joining(" or "));
  }
}
