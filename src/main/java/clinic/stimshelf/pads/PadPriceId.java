package clinic.stimshelf.pads;

import java.io.Serializable;
import java.time.LocalDate;

/** A pad type and the day from which a price holds. */
record PadPriceId(Long padTypeId, LocalDate fromDay) implements Serializable {}
