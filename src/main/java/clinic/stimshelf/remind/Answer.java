package clinic.stimshelf.remind;

/**
 * What became of handing a message over.
 *
 * @param how taken, the address refused for good, to be tried again, or nobody knows
 * @param words what was said, without whom it was about
 * @param serverTrouble whether the next message would fare no better
 */
record Answer(How how, String words, boolean serverTrouble) {
  enum How {
    TAKEN,
    REFUSED,
    LATER,
    /** It may have been sent, and must not be sent twice. */
    UNKNOWN
  }

  static Answer taken() {
    return new Answer(How.TAKEN, null, false);
  }

  static Answer refused(String words) {
    return new Answer(How.REFUSED, words, false);
  }

  static Answer unknown(String words) {
    return new Answer(How.UNKNOWN, words, true);
  }

  static Answer later(String words, boolean serverTrouble) {
    return new Answer(How.LATER, words, serverTrouble);
  }
}
