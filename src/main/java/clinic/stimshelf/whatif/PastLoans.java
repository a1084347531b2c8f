package clinic.stimshelf.whatif;

import clinic.stimshelf.loans.Away;
import clinic.stimshelf.loans.PastLending;
import clinic.stimshelf.web.Option;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What the location's own loans say, as the forms begin with it. */
final class PastLoans {
  private static final PastLending.OfKind NONE =
      new PastLending.OfKind("", "", 0, 0, PastLending.WEEKS, 0, 0, List.of());

  private PastLoans() {}

  static List<Option> options(List<PastLending.OfKind> kinds) {
    return kinds.stream().map(one -> new Option(one.kind(), one.name())).toList();
  }

  /** The lending of a kind; of one that is not lent out there is none. */
  static PastLending.OfKind chosen(List<PastLending.OfKind> kinds, String kind) {
    return kinds.stream().filter(one -> one.kind().equals(kind)).findFirst().orElse(NONE);
  }

  /** Days after the due day, by how often: back then, or still out then. */
  static Map<String, Integer> lateness(List<Away> loans, LocalDate today) {
    Map<String, Integer> times = new TreeMap<>(PastLoans::byDay);
    for (Away loan : loans) {
      if (loan.due() == null || (loan.back() == null && !loan.due().isBefore(today))) {
        continue;
      }
      LocalDate last = loan.back() == null ? today : loan.back();
      times.merge(
          days(loan.due(), last) + (loan.back() == null ? " out" : " back"), 1, Integer::sum);
    }
    return times;
  }

  private static int byDay(String a, String b) {
    int days = Integer.compare(dayOf(a), dayOf(b));
    return days != 0 ? days : a.compareTo(b);
  }

  private static int dayOf(String line) {
    return Integer.parseInt(line.substring(0, line.indexOf(' ')));
  }

  private static int days(LocalDate from, LocalDate to) {
    return (int) Math.max(0, Math.min(100_000, ChronoUnit.DAYS.between(from, to)));
  }
}
