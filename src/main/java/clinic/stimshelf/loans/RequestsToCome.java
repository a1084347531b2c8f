package clinic.stimshelf.loans;

import clinic.stimshelf.calc.pool.Newcomers;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;

/**
 * Who may yet come and take a unit first, taken to come as often, as urgently and as long ahead as
 * requests did lately.
 *
 * @param asked requests of the last {@link #WINDOW} days that were not taken back
 * @param days over which they came
 */
record RequestsToCome(List<Asked> asked, int days) {
  /** Half a year: long enough to count, short enough to follow the seasons of surgery. */
  static final int WINDOW = 182;

  private static final int LEAST = 28;

  /** More than so many in between are as good as no chance. */
  private static final double MOST = 100;

  /** A request that was made. */
  record Asked(LocalDate on, LocalDate neededFrom, int priority, int channels) {
    private int lead() {
      return (int) Math.max(0, ChronoUnit.DAYS.between(on, neededFrom));
    }
  }

  /**
   * None are expected where none were made.
   *
   * @param since first day of lending: a day without a request counts as one
   */
  static RequestsToCome of(List<Asked> asked, LocalDate since, LocalDate today) {
    long days = ChronoUnit.DAYS.between(since, today);
    return new RequestsToCome(List.copyOf(asked), (int) Math.max(LEAST, Math.min(WINDOW, days)));
  }

  /**
   * Those that would come first in line: more urgent ones, and equally urgent ones that are needed
   * earlier.
   *
   * @param priority of the request they are compared with
   * @param wished days from today until its unit is wanted
   * @param mostChannels of the units that would suit it: who needs more takes none of them
   */
  Newcomers ahead(int priority, int wished, int mostChannels) {
    List<Asked> rivals = of(priority, mostChannels, false);
    return day -> {
      long comings = 0;
      for (Asked one : rivals) {
        // On which of the days from tomorrow on it may come, be ahead, and want its unit by then.
        int last = day - one.lead();
        if (one.priority() == priority) {
          last = Math.min(last, wished - one.lead() - 1);
        }
        comings += Math.max(0, last);
      }
      return Math.min(MOST, comings / (double) days);
    };
  }

  /** Those less urgent that would want theirs earlier; parameters as in {@link #ahead}. */
  Newcomers earlier(int priority, int wished, int mostChannels) {
    long comings = 0;
    for (Asked one : of(priority, mostChannels, true)) {
      comings += Math.max(0, wished - one.lead() - 1);
    }
    double mean = Math.min(MOST, comings / (double) days);
    return day -> mean;
  }

  private List<Asked> of(int priority, int mostChannels, boolean lessUrgent) {
    return asked.stream()
        .filter(one -> one.channels() <= mostChannels)
        .filter(one -> lessUrgent == one.priority() > priority)
        .toList();
  }
}
