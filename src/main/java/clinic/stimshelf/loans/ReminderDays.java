package clinic.stimshelf.loans;

import java.time.LocalDate;
import java.util.List;

/** When a patient hears from the clinic during a loan. The room of reminders answers. */
public interface ReminderDays {

  /** The ladder of a loan, in order of days, past and to come. */
  List<Rung> ladder(LoanFacts loan);

  /**
   * One step of the ladder.
   *
   * @param about the day it is about: the due day, the day of a pad change
   * @param kind its key in the ladder's file
   * @param channel message, call, letter or task
   * @param words what it is about, without a diagnosis
   */
  record Rung(LocalDate day, LocalDate about, String kind, String channel, String words) {}
}
