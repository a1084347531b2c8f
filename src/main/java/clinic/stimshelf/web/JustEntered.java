package clinic.stimshelf.web;

import jakarta.transaction.TransactionScoped;
import java.io.Serializable;
import java.util.HashMap;
import java.util.Map;

/**
 * What one transaction has added but not yet written, by name. A file of many thousand rows is
 * checked against the database and against its own earlier rows without a flush for each of them.
 */
@TransactionScoped
public class JustEntered implements Serializable {
  private static final long serialVersionUID = 1L;

  private final Map<String, Long> numbers = new HashMap<>();

  /** The number of what was added under that name, or {@code null}. */
  public Long find(String kind, String name) {
    return name == null ? null : numbers.get(kind + ' ' + name);
  }

  public void add(String kind, String name, Long number) {
    if (name != null) {
      numbers.put(kind + ' ' + name, number);
    }
  }
}
