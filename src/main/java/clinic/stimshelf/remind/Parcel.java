package clinic.stimshelf.remind;

/**
 * A message in the hands of whoever sends it.
 *
 * @param messageId which message
 * @param tries which try this is: an answer to an earlier one counts no more
 */
record Parcel(
    Long messageId, int tries, Route route, String to, String mailId, Composed composed) {}
