package clinic.stimshelf.program;

import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Days;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;

/**
 * When a clinic asks whether a program was given up. It is a question, never an answer: what is not
 * told of is not missed, so that silence and missed sessions are two reasons.
 *
 * @param days without a sign of life; also the days whose known sessions are counted
 * @param share of the known sessions done below which it is asked as well; 0 asks never
 */
record GivenUp(int days, double share) {

  /** So few known sessions that their share would jump about; common practice, no source. */
  private static final int FEW = 6;

  static GivenUp of(LocationSettings settings) {
    return new GivenUp(
        settings.whole(Setting.GIVEN_UP_DAYS), settings.number(Setting.GIVEN_UP_SHARE));
  }

  /**
   * Why somebody should ask.
   *
   * @param when in short words
   * @param what in a sentence
   */
  record Why(String when, String what) {}

  /**
   * @param began the last day on which the clinic saw to the program: its start, a signature, the
   *     first session, the end of a pause
   * @param lastVisit {@code null} for none in the days that count
   * @return {@code null} where nothing speaks for it
   */
  Why why(
      Collection<Adherence.Known> known, LocalDate began, LocalDate lastVisit, LocalDate today) {
    LocalDate told =
        known.stream().map(Adherence.Known::day).max(LocalDate::compareTo).orElse(null);
    LocalDate sign = later(later(began, told), lastVisit);
    long silent = ChronoUnit.DAYS.between(sign, today);
    if (silent >= days) {
      return new Why(
          silent + " days",
          (told == null
                  ? "No session was ever told of"
                  : "No session told of since " + Days.shortly(told))
              + (lastVisit == null ? ", no visit in these days" : "")
              + "; that does not say missed");
    }
    LocalDate from = today.minusDays(days);
    long of = known.stream().filter(one -> within(one, from, today)).count();
    long done =
        known.stream()
            .filter(one -> within(one, from, today) && one.outcome() != Outcome.NOT)
            .count();
    boolean longEnough = !began.isAfter(from);
    if (longEnough && of >= FEW && done < share * of) {
      return new Why(
          done + " of " + of,
          "Of "
              + of
              + " known sessions of the last "
              + days
              + " days "
              + done
              + " were done, the others missed");
    }
    return null;
  }

  private static boolean within(Adherence.Known one, LocalDate from, LocalDate today) {
    return !one.day().isBefore(from) && one.day().isBefore(today);
  }

  private static LocalDate later(LocalDate one, LocalDate other) {
    return other == null || one.isAfter(other) ? one : other;
  }
}
