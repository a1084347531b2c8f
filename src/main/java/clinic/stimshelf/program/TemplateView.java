package clinic.stimshelf.program;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A published example for scripts.
 *
 * @param source where its values are printed
 * @param complete whether no value of the dose must be typed
 * @param blanks values that must be typed
 * @param values what choosing it fills in, by name
 * @param ranges what the source prints as a range, by name
 * @param fromMemory values that were not checked against the source
 * @param derived values that are worked out from printed ones
 * @param sources by value, where it is printed
 */
record TemplateView(
    String key,
    String title,
    String muscle,
    String source,
    boolean complete,
    List<String> blanks,
    Map<String, Object> values,
    Map<String, String> ranges,
    List<String> fromMemory,
    List<String> derived,
    Map<String, String> sources,
    String start,
    String note) {

  static TemplateView of(Template template) {
    Map<String, String> ranges = new LinkedHashMap<>();
    Map<String, String> sources = new LinkedHashMap<>();
    template
        .values()
        .forEach(
            (field, published) -> {
              sources.put(field.key(), published.source());
              if (published.between() != null) {
                ranges.put(field.key(), published.between());
              }
            });
    return new TemplateView(
        template.key(),
        template.title(),
        template.muscle(),
        template.source(),
        template.complete(),
        template.blanks().stream().map(DoseField::key).toList(),
        template.dose().byKey(),
        ranges,
        template.values().entrySet().stream()
            .filter(entry -> entry.getValue().fromMemory())
            .map(entry -> entry.getKey().key())
            .toList(),
        template.values().entrySet().stream()
            .filter(entry -> entry.getValue().derived())
            .map(entry -> entry.getKey().key())
            .toList(),
        sources,
        template.start(),
        template.note());
  }
}
