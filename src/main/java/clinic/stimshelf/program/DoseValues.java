package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonValue;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;

/** The values of a dose that are known; what is blank is absent. */
final class DoseValues {
  private final EnumMap<DoseField, Object> values = new EnumMap<>(DoseField.class);

  private DoseValues() {}

  static DoseValues none() {
    return new DoseValues();
  }

  static DoseValues of(Map<DoseField, ?> values) {
    DoseValues made = new DoseValues();
    values.forEach(
        (field, value) -> {
          if (value != null) {
            made.values.put(field, value);
          }
        });
    return made;
  }

  static DoseValues of(ProgramVersion version) {
    EnumMap<DoseField, Object> read = new EnumMap<>(DoseField.class);
    for (DoseField field : DoseField.all()) {
      read.put(field, field.get(version));
    }
    return of(read);
  }

  void writeTo(ProgramVersion version) {
    for (DoseField field : DoseField.all()) {
      field.set(version, values.get(field));
    }
  }

  /** These values, with blanks filled from others. */
  DoseValues filledFrom(DoseValues others) {
    DoseValues filled = of(others.values);
    filled.values.putAll(values);
    // One way of telling the length of a session excludes the other.
    if (values.containsKey(DoseField.CONTRACTIONS) && !values.containsKey(DoseField.MINUTES)) {
      filled.values.remove(DoseField.MINUTES);
    }
    if (values.containsKey(DoseField.MINUTES) && !values.containsKey(DoseField.CONTRACTIONS)) {
      filled.values.remove(DoseField.CONTRACTIONS);
    }
    return filled;
  }

  DoseValues with(DoseField field, Object value) {
    DoseValues changed = of(values);
    if (value == null) {
      changed.values.remove(field);
    } else {
      changed.values.put(field, value);
    }
    return changed;
  }

  boolean has(DoseField field) {
    return values.containsKey(field);
  }

  Object get(DoseField field) {
    return values.get(field);
  }

  BigDecimal number(DoseField field) {
    return (BigDecimal) values.get(field);
  }

  BigDecimal numberOrZero(DoseField field) {
    return has(field) ? number(field) : BigDecimal.ZERO;
  }

  Integer whole(DoseField field) {
    return (Integer) values.get(field);
  }

  Boolean yes(DoseField field) {
    return (Boolean) values.get(field);
  }

  boolean sure(DoseField field) {
    return Boolean.TRUE.equals(values.get(field));
  }

  String text(DoseField field) {
    return (String) values.get(field);
  }

  FrequencyKind frequencyKind() {
    return (FrequencyKind) values.get(DoseField.FREQUENCY_KIND);
  }

  Map<DoseField, Object> asMap() {
    return new EnumMap<>(values);
  }

  /** By the names that JSON uses. */
  @JsonValue
  Map<String, Object> byKey() {
    Map<String, Object> named = new LinkedHashMap<>();
    values.forEach((field, value) -> named.put(field.key(), value));
    return named;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof DoseValues that && values.equals(that.values);
  }

  @Override
  public int hashCode() {
    return values.hashCode();
  }

  @Override
  public String toString() {
    return byKey().toString();
  }
}
