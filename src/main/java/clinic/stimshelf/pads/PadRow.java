package clinic.stimshelf.pads;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * One pad type as the page of pads shows it.
 *
 * @param programs what stands behind the line of programs, one each
 * @param moves packs that could be moved here instead of ordered
 */
record PadRow(
    PadTypeView type,
    PadPosition position,
    ReorderView answer,
    PadPicture picture,
    StockBar bar,
    StockChart chart,
    List<Why> why,
    List<Why> programs,
    List<DayLine> days,
    List<Transfers.Proposal> moves) {
  private static final int NAMED = 3;

  /** A line of reasons. */
  record Why(String packs, String text, String small, boolean names) {}

  /** A day of the projection in words. */
  record DayLine(LocalDate date, String expected, String band, String chance, boolean risky) {}

  static PadRow of(
      PadTypeView type,
      PadPosition position,
      ReorderView answer,
      double padScale,
      double barScale) {
    List<ReorderView.Reason> programs =
        answer.reasons().stream().filter(reason -> reason.kind().equals("program")).toList();
    List<Why> why = new ArrayList<>();
    if (!programs.isEmpty()) {
      BigDecimal sum =
          programs.stream().map(ReorderView.Reason::packs).reduce(BigDecimal.ZERO, BigDecimal::add);
      why.add(new Why(one(sum), "programs, by date", first(programs), true));
    }
    answer.reasons().stream()
        .filter(reason -> !reason.kind().equals("program"))
        .forEach(reason -> why.add(new Why(one(reason.packs()), reason.text(), null, false)));
    return new PadRow(
        type,
        position,
        answer,
        PadPicture.of(type, padScale),
        StockBar.of(position, barScale),
        StockChart.of(answer, position.usable()),
        why,
        programs.stream()
            .map(reason -> new Why(two(reason.packs()), reason.text(), null, true))
            .toList(),
        answer.projection().stream().map(day -> line(day, answer.serviceLevel())).toList(),
        List.of());
  }

  PadRow with(List<Transfers.Proposal> proposed) {
    return new PadRow(
        type, position, answer, picture, bar, chart, why, programs, days, List.copyOf(proposed));
  }

  /** Whether nothing of it is here, coming, owed or used. */
  boolean idle() {
    return !toOrder()
        && moves.isEmpty()
        && position.onHand() == 0
        && position.onOrder() == 0
        && position.owed() == 0
        && position.reorderPoint() == 0;
  }

  /** Whether it is time to order. */
  public boolean toOrder() {
    return answer.orderQuantity() > 0;
  }

  public String span() {
    long lead = Math.round(answer.leadDays());
    return "over "
        + days(lead)
        + " until delivery and "
        + days(answer.reviewDays())
        + " until the next look";
  }

  public String cover() {
    return position.coverDays() == null ? "long" : days(position.coverDays());
  }

  /** What is not plainly in the cupboard. */
  public String notes() {
    List<String> notes = new ArrayList<>();
    add(notes, position.quarantined(), " quarantined");
    add(notes, position.expired(), " expired");
    add(notes, position.onOrder(), " coming");
    add(notes, position.owed(), " owed");
    return notes.isEmpty() ? "" : ", " + String.join(", ", notes);
  }

  private static void add(List<String> notes, int packs, String words) {
    if (packs > 0) {
      notes.add(packs + words);
    }
  }

  static String days(long days) {
    return days + (days == 1 ? " day" : " days");
  }

  static String packs(long packs) {
    return packs + (packs == 1 ? " pack" : " packs");
  }

  private static String first(List<ReorderView.Reason> programs) {
    String names =
        String.join("; ", programs.stream().limit(NAMED).map(ReorderView.Reason::text).toList());
    int more = programs.size() - NAMED;
    return more > 0 ? names + " and " + more + " more" : names;
  }

  private static DayLine line(ReorderView.Day day, double serviceLevel) {
    return new DayLine(
        day.date(),
        one(BigDecimal.valueOf(day.expected())).replace('-', '−'),
        signed(day.low()) + " to " + signed(day.high()),
        String.format(Locale.US, "%.1f %%", 100 * day.stockoutChance()),
        day.stockoutChance() > 1 - serviceLevel);
  }

  private static String signed(long packs) {
    return packs < 0 ? "−" + -packs : String.valueOf(packs);
  }

  private static String one(BigDecimal packs) {
    return packs.setScale(1, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static String two(BigDecimal packs) {
    return packs.setScale(2, RoundingMode.HALF_EVEN).toPlainString();
  }
}
