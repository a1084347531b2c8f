package clinic.stimshelf.program;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * A published dose as a start for a program.
 *
 * @param sources where its values are printed, in words
 * @param values what the sources print; a dose value that is absent is blank
 * @param start when the trial began, or {@code null}
 * @param note what a therapist should know of it, or {@code null}
 */
record Template(
    String key,
    String title,
    String muscle,
    List<String> sources,
    Map<DoseField, Published> values,
    String start,
    String note) {

  /**
   * A printed value.
   *
   * @param value as a program holds it, or {@code null} where a range is printed
   * @param between the range in words, or {@code null}
   * @param fromMemory whether it was not checked against the source
   * @param derived whether it is our arithmetic from other printed values
   */
  record Published(
      Object value, String between, String source, boolean fromMemory, boolean derived) {

    /** For the therapist beside the field. */
    String words(DoseField field) {
      String said = value == null ? between : field.typed(value);
      return said
          + (fromMemory ? " (from memory, look it up)" : "")
          + (derived ? " (worked out from the source)" : "");
    }
  }

  /** Where a value differs from what the source prints. */
  record Difference(String field, String words, String source, String now) {}

  public String source() {
    return String.join("; ", sources);
  }

  /** The values that choosing this template fills in. */
  DoseValues dose() {
    Map<DoseField, Object> filled = new EnumMap<>(DoseField.class);
    values.forEach((field, published) -> filled.put(field, published.value()));
    return DoseValues.of(filled);
  }

  /** Whether a therapist has to type no value of the dose. */
  boolean complete() {
    return Contents.missing(dose()).isEmpty();
  }

  /** The dose values that must be typed. */
  List<DoseField> blanks() {
    return Contents.missing(dose());
  }

  /** What a dose changed, against the values this template fills in. */
  List<Difference> differences(DoseValues dose) {
    List<Difference> differences = new ArrayList<>();
    values.forEach(
        (field, published) -> {
          Object now = dose.get(field);
          boolean other =
              published.value() != null
                  ? !same(published.value(), now)
                  : now != null && outside(published.between(), now);
          if (other) {
            differences.add(
                new Difference(
                    field.key(),
                    field.words(),
                    published.value() == null
                        ? published.between()
                        : field.typed(published.value()),
                    now == null ? null : field.typed(now)));
          }
        });
    return differences;
  }

  private static boolean same(Object published, Object now) {
    return published instanceof BigDecimal a && now instanceof BigDecimal b
        ? a.compareTo(b) == 0
        : Objects.equals(published, now);
  }

  private static boolean outside(String between, Object now) {
    String[] ends = between.split(" to ", -1);
    BigDecimal number = new BigDecimal(now.toString());
    return ends.length != 2
        || number.compareTo(new BigDecimal(ends[0])) < 0
        || number.compareTo(new BigDecimal(ends[1])) > 0;
  }
}
