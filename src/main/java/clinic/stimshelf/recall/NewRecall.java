package clinic.stimshelf.recall;

/**
 * What a person who begins a recall says. Exactly one of lot, unit and serial numbers is named.
 *
 * @param lotId the pad lot, or {@code null}
 * @param unitTag the unit, or {@code null}
 * @param kind code of the kind whose serial numbers are meant, or {@code null}
 * @param reason what is wrong, without a name or a diagnosis; at most 200 characters
 * @param reference the number under which maker or regulator knows it, or {@code null}
 */
public record NewRecall(
    Long lotId,
    String unitTag,
    String kind,
    String serialFrom,
    String serialTo,
    String reason,
    String reference) {}
