package clinic.stimshelf.codes.udi;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a device label says. What the label leaves out is null.
 *
 * @param issuer whose rules the label follows; null if it was not recognised
 * @param deviceIdentifier the model: a GTIN of 14 digits, a HIBC labeler, product and unit of use,
 *     or an ICCBBA device identifier
 * @param expiresOn the last day of use; a label that names only the month means its last day
 * @param expiresAtHour the hour of that day (0 to 23) where the label gives one
 * @param madeOn the day of manufacture
 * @param count how many items the pack holds
 * @param raw the scan exactly as it came in
 * @param symbology the scanner's symbology identifier, such as {@code ]d2}, if it was sent
 * @param elements every part in the order of the label, by its own key: the application identifier
 *     (GS1), LIC, PCN, UOM (HIBC), DIN (ICCBBA)
 * @param usable whether there is a device identifier and nothing contradicts the reading
 * @param problems in words: what makes the reading unusable, and what to look at although it is
 *     usable
 */
public record Udi(
    @Nullable Issuer issuer,
    @Nullable String deviceIdentifier,
    @Nullable String lot,
    @Nullable String serial,
    @Nullable LocalDate expiresOn,
    @Nullable Integer expiresAtHour,
    @Nullable LocalDate madeOn,
    @Nullable Integer count,
    String raw,
    @Nullable String symbology,
    Map<String, String> elements,
    boolean usable,
    List<String> problems) {

  public Udi {
    elements = Collections.unmodifiableMap(new LinkedHashMap<>(elements));
    problems = List.copyOf(problems);
  }

  /** Whether the label's last day of use lies before the given day. */
  public boolean isExpiredOn(LocalDate day) {
    return expiresOn != null && expiresOn.isBefore(day);
  }
}
