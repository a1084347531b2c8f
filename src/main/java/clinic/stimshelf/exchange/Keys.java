package clinic.stimshelf.exchange;

import jakarta.persistence.EntityManager;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Finds what codes stand for. Each kind is read whole at its first use: a file of 50 000 rows costs
 * one query, not 50 000.
 */
final class Keys {
  private final EntityManager database;
  private final Set<String> toCome;
  private final Map<Key, Map<String, Found>> found = new EnumMap<>(Key.class);

  /**
   * @param id number of the row
   * @param locationId where it belongs, {@code null} if everywhere
   */
  record Found(Long id, Long locationId) {}

  /**
   * @param toCome what earlier files of the run name but has not happened yet
   */
  Keys(EntityManager database, Set<String> toCome) {
    this.database = database;
    this.toCome = toCome;
  }

  /** What the code stands for, {@code null} if nothing. */
  Found find(Key key, String code) {
    return found.computeIfAbsent(key, this::load).get(code);
  }

  boolean isToCome(Key key, String code) {
    return toCome.contains(key + ":" + code);
  }

  void toCome(Key key, String code) {
    toCome.add(key + ":" + code);
  }

  private Map<String, Found> load(Key key) {
    Map<String, Found> ids = new HashMap<>();
    for (Object[] row : rows(key.query())) {
      ids.put((String) row[0], new Found(number(row[1]), number(row[2])));
    }
    return ids;
  }

  /** The names that a query gives. */
  Set<String> names(String query) {
    Set<String> names = new HashSet<>();
    if (!query.isEmpty()) {
      database.createNativeQuery(query).getResultList().forEach(name -> names.add((String) name));
    }
    return names;
  }

  private static Long number(Object value) {
    return value == null ? null : ((Number) value).longValue();
  }

  @SuppressWarnings("unchecked")
  private List<Object[]> rows(String query) {
    return database.createNativeQuery(query, Object[].class).getResultList();
  }
}
