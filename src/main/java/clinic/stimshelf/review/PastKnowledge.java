package clinic.stimshelf.review;

import clinic.stimshelf.calc.demand.LeadTime;
import clinic.stimshelf.calc.demand.Replay.Morning;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.pads.OrderRule;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What was known of one pad type at one location on the morning of a day: what happened before that
 * day, and what was signed before it. Nothing else can be asked of it, so that a replay cannot look
 * ahead.
 */
final class PastKnowledge {
  private static final int START_DAYS = 90;
  private static final int LOOKED_AHEAD_DAYS = 120;

  /** Why packs left. */
  enum Kind {
    DRAWER,
    APPOINTMENT,
    GIVEN
  }

  /**
   * @param program which program they went to, as the ledger tells it apart; {@code null} for
   *     others
   */
  record Taking(LocalDate day, Kind kind, int packs, String program) {}

  record Delivery(LocalDate orderedOn, LocalDate cameOn, int keptDays) {
    int leadDays() {
      return (int) Math.max(0, ChronoUnit.DAYS.between(orderedOn, cameOn));
    }
  }

  /**
   * Packs that a signed program will draw.
   *
   * @param signedOn known from the day after
   * @param until no longer after this day: replaced, stopped or over
   * @param dueOn when they are due to leave
   * @param later whether they leave after the beginning, if the program is followed
   */
  record Promise(
      String program,
      LocalDate signedOn,
      LocalDate until,
      LocalDate dueOn,
      int packs,
      boolean later) {}

  /**
   * @param leadDays expected while no delivery is known
   * @param shelfDays the same for how long packs keep
   * @param firstDays days of a program's beginning that count as its start
   * @param adherence share of later packs that is drawn
   */
  record Usual(int leadDays, int shelfDays, int firstDays, double adherence) {}

  private final List<Taking> takings;
  private final List<Delivery> deliveries;
  private final List<Promise> promises;
  private final Usual usual;

  /**
   * @param takings ascending by day
   * @param deliveries ascending by the day they came
   * @param promises ascending by due day
   */
  PastKnowledge(
      List<Taking> takings, List<Delivery> deliveries, List<Promise> promises, Usual usual) {
    this.takings = List.copyOf(takings);
    this.deliveries = List.copyOf(deliveries);
    this.promises = List.copyOf(promises);
    this.usual = usual;
  }

  /** All that the rule may know on that morning. */
  OrderRule.Known on(Morning morning) {
    LocalDate day = morning.day();
    List<Taking> before = takings.stream().filter(one -> one.day().isBefore(day)).toList();
    List<Delivery> came =
        deliveries.stream()
            .filter(one -> one.cameOn().isBefore(day))
            .filter(one -> !one.cameOn().isBefore(day.minusYears(OrderRule.LEAD_TIME_YEARS)))
            .toList();
    List<Integer> lead = came.stream().map(Delivery::leadDays).toList();
    long expected = Math.round(LeadTime.observed(lead, LeadTime.fixed(usual.leadDays())).mean());
    int days = historyDays(before, day);
    LocalDate from = day.minusDays(days);
    return new OrderRule.Known(
        day,
        morning.shelf().stream()
            .map(batch -> new OrderRule.Packs(batch.expiresOn(), batch.packs()))
            .toList(),
        morning.coming().stream()
            .map(
                one -> {
                  LocalDate on = one.orderedOn().plusDays(expected);
                  return new OrderRule.Packs(on.isAfter(day) ? on : day.plusDays(1), one.packs());
                })
            .toList(),
        Math.toIntExact(morning.waiting()),
        promised(before, day),
        days,
        packs(before, from, Kind.DRAWER),
        packs(before, from, Kind.APPOINTMENT),
        starts(before, from),
        before.stream().filter(one -> !one.day().isBefore(from)).map(Taking::packs).toList(),
        lead,
        kept(came));
  }

  private static int historyDays(List<Taking> before, LocalDate day) {
    long days = before.isEmpty() ? 0 : ChronoUnit.DAYS.between(before.get(0).day(), day);
    return (int) Math.max(OrderRule.LEAST_RATE_DAYS, Math.min(OrderRule.RATE_DAYS, days));
  }

  private static List<Integer> packs(List<Taking> before, LocalDate from, Kind kind) {
    return before.stream()
        .filter(one -> one.kind() == kind && !one.day().isBefore(from))
        .map(Taking::packs)
        .toList();
  }

  private List<Integer> starts(List<Taking> before, LocalDate from) {
    Map<String, LocalDate> began = new HashMap<>();
    Map<String, Integer> packs = new LinkedHashMap<>();
    for (Taking one : before) {
      if (one.kind() == Kind.GIVEN && !one.day().isBefore(from.minusDays(START_DAYS))) {
        LocalDate first = began.computeIfAbsent(one.program(), program -> one.day());
        if (one.day().isBefore(first.plusDays(usual.firstDays()))) {
          packs.merge(one.program(), one.packs(), Integer::sum);
        }
      }
    }
    List<Integer> starts = new ArrayList<>();
    packs.forEach(
        (program, sum) -> {
          if (!began.get(program).isBefore(from)) {
            starts.add(sum);
          }
        });
    return starts;
  }

  /** What a program drew already counts against its earliest packs first. */
  private List<DatedPacks> promised(List<Taking> before, LocalDate day) {
    Map<String, Integer> drawn = new HashMap<>();
    before.stream()
        .filter(one -> one.kind() == Kind.GIVEN)
        .forEach(one -> drawn.merge(one.program(), one.packs(), Integer::sum));
    List<DatedPacks> promised = new ArrayList<>();
    for (Promise promise : promises) {
      if (promise.signedOn().isBefore(day) && !promise.until().isBefore(day)) {
        int had = Math.min(drawn.getOrDefault(promise.program(), 0), promise.packs());
        drawn.merge(promise.program(), -had, Integer::sum);
        int left = promise.packs() - had;
        if (left > 0 && !promise.dueOn().isAfter(day.plusDays(LOOKED_AHEAD_DAYS))) {
          promised.add(
              new DatedPacks(
                  "",
                  promise.dueOn().isBefore(day) ? day : promise.dueOn(),
                  left,
                  promise.later() ? usual.adherence() : 1,
                  promise.program(),
                  false,
                  DatedPacks.Kind.PROGRAM));
        }
      }
    }
    return promised;
  }

  private int kept(List<Delivery> came) {
    if (came.isEmpty()) {
      return usual.shelfDays();
    }
    List<Integer> sorted = came.stream().map(Delivery::keptDays).sorted().toList();
    return Math.max(1, sorted.get((sorted.size() - 1) / 2));
  }
}
