package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.pool.Standing;
import clinic.stimshelf.calc.pool.SureBy;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/**
 * What somebody who asks for a unit is told.
 *
 * @param on the first open day, from the wished one on, on which a unit is sure enough, or {@code
 *     null} if there is none
 * @param chance on that day, or at the horizon
 * @param onWished chance on the wished day
 * @param reason why there is no day
 */
record Promise(LocalDate on, double chance, double onWished, SureBy.Reason reason) {

  /**
   * @param wished today or later
   * @param level of the location, strictly between 0 and 1
   */
  static Promise of(
      LocalDate today, LocalDate wished, Standing standing, double level, OpenDays open) {
    int from = (int) ChronoUnit.DAYS.between(today, wished);
    SureBy sure = SureBy.of(standing, level, from, day -> open.isOpen(today.plusDays(day)));
    return new Promise(
        sure.day().isPresent() ? today.plusDays(sure.day().getAsInt()) : null,
        sure.chance(),
        standing.chanceOn(from),
        sure.reason());
  }
}
