package clinic.stimshelf.shelf;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** The products of {@code config/wipe-products.yaml}; the first is proposed. */
@Startup
@Singleton
public class WipeProducts {
  static final String FILE = "wipe-products.yaml";

  private final Map<String, Product> products = new LinkedHashMap<>();

  /**
   * @param contactMinutes how long the surface must stay wet, as the product's label says
   */
  public record Product(String key, String name, int contactMinutes, String note) {}

  record Listed(List<Product> products) {}

  @Inject
  WipeProducts(ConfigFiles files) {
    this(files.read(FILE, Listed.class));
  }

  WipeProducts(Listed listed) {
    List<String> faults = new ArrayList<>();
    for (Product product : listed.products() == null ? List.<Product>of() : listed.products()) {
      String name = "Product “" + product.key() + "”";
      if (product.key() == null || !product.key().matches("[a-z0-9-]{1,64}")) {
        faults.add(name + " needs a key of a-z, 0-9 and dashes.");
      }
      if (product.name() == null || product.name().isBlank()) {
        faults.add(name + " needs a name.");
      }
      if (product.contactMinutes() < 1 || product.contactMinutes() > 60) {
        faults.add(name + " needs contact-minutes from 1 to 60.");
      }
      if (products.put(product.key(), product) != null) {
        faults.add(name + " stands there twice.");
      }
    }
    if (products.isEmpty()) {
      faults.add("It names no product.");
    }
    ConfigFiles.refuse(FILE, faults);
  }

  public List<Product> all() {
    return List.copyOf(products.values());
  }

  public Product proposed() {
    return products.values().iterator().next();
  }

  Optional<Product> find(String key) {
    return Optional.ofNullable(products.get(key));
  }

  /** Name of a product that may have been taken off the list since. */
  String name(String key) {
    return find(key).map(Product::name).orElse(key);
  }

  String keys() {
    return products.keySet().stream().collect(Collectors.joining(", "));
  }
}
