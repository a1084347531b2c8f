package clinic.stimshelf.calc.consumption;

/** Why more or fewer packs were used, in the order in which the steps are taken. */
public enum Cause {
  /** More or fewer sessions took place. */
  SESSIONS,
  /** Pads lasted fewer or more sessions. */
  WEAR,
  /** Pads were lost or thrown away before their end. */
  WASTE,
  /** A pack cost more or less; no packs. */
  PRICE
}
