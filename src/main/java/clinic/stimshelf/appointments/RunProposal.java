package clinic.stimshelf.appointments;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.util.List;

/**
 * The best run there is among the free times, and why it is the best.
 *
 * @param visits by time; fewer than asked where the free times do not hold more
 * @param complete whether they are as many as asked
 * @param until last day that was looked at
 * @param why what makes it the best, a sentence each
 * @param against what the plan of care says against it, a sentence each; it is no refusal
 */
record RunProposal(
    List<Visit> visits, boolean complete, LocalDate until, List<String> why, List<String> against) {

  RunProposal {
    visits = List.copyOf(visits);
    why = List.copyOf(why);
    against = List.copyOf(against);
  }

  /** One appointment of it. */
  record Visit(ZonedDateTime at, Long therapistId, String therapist) {

    Instant start() {
      return at.toInstant();
    }

    /** As the form sends it back. */
    public String key() {
      return at.toInstant() + "|" + therapistId;
    }
  }
}
