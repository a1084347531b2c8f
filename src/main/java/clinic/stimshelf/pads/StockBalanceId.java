package clinic.stimshelf.pads;

import java.io.Serializable;

/** A lot at a location. */
record StockBalanceId(Long lotId, Long locationId) implements Serializable {}
