package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.List;

/**
 * Treatments in the clinic.
 *
 * @param booked day of each that is still to come, ascending
 * @param held how many took place in the past looked at
 * @param missed how many were booked there and the patient did not come
 */
public record Treatments(List<LocalDate> booked, int held, int missed) {
  static final Treatments NONE = new Treatments(List.of(), 0, 0);

  /** So few that a rate of them would jump about; common practice, no source. */
  private static final int FEW = 20;

  public Treatments {
    booked = List.copyOf(booked);
  }

  Treatments and(Treatments other) {
    return this == NONE
        ? other
        : other == NONE
            ? this
            : new Treatments(
                java.util.stream.Stream.concat(booked.stream(), other.booked.stream())
                    .sorted()
                    .toList(),
                held + other.held,
                missed + other.missed);
  }

  /**
   * Share of booked treatments that patients miss.
   *
   * @param without what counts while too few are on record
   */
  double noShow(double without) {
    return held + missed < FEW ? without : missed / (double) (held + missed);
  }
}
