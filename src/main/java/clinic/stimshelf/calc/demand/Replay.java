package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Walks a cupboard once more through days that were: the same packs are asked for, but somebody
 * else decides when to order. A rule sees the cupboard on the morning of a day and nothing of the
 * days to come.
 *
 * <p>Each morning packs whose expiry lies before the day are thrown away, what is due arrives, and
 * on every review day the rule may order. Then what is asked for is given, first expiry first; what
 * is not there waits and is given before anything else once packs come. An order takes as many days
 * as the one that was really placed last before it.
 */
public final class Replay {
  private static final int LONGEST = 3_700;

  private Replay() {}

  /**
   * Packs that expire together.
   *
   * @param expiresOn the last day on which they may be given
   * @param packs 1 or more
   */
  public record Batch(LocalDate expiresOn, int packs) {
    public Batch {
      Check.within("packs", packs, 1, 10_000_000);
    }
  }

  /**
   * Packs that come on a day whatever the rule does.
   *
   * @param orderedOn for what was ordered, which a rule counts as coming and which ends a cycle;
   *     {@code null} for what came back or was moved here
   */
  public record Arrival(LocalDate day, Batch batch, @Nullable LocalDate orderedOn) {}

  /**
   * What a supplier did once.
   *
   * @param leadDays from ordering to the shelf, 0 or more
   * @param keptDays from the shelf to expiry
   */
  public record Supply(LocalDate orderedOn, int leadDays, int keptDays) {}

  /**
   * What happened and would have happened anyway.
   *
   * @param from first day of the walk
   * @param to last day
   * @param opening packs on the shelf before the first day
   * @param arrivals of what was on its way already, or came in other ways than by ordering
   * @param asked packs asked for on a day
   * @param gone packs that left otherwise: thrown away, moved, miscounted; where fewer are there,
   *     fewer leave
   * @param supplies ascending by day; may be empty
   * @param usual where no order was placed before a day
   * @param reviewDays from one look to the next, 1 or more; the first is on the first day
   */
  public record Past(
      LocalDate from,
      LocalDate to,
      List<Batch> opening,
      List<Arrival> arrivals,
      Map<LocalDate, Integer> asked,
      Map<LocalDate, Integer> gone,
      List<Supply> supplies,
      Supply usual,
      int reviewDays) {
    public Past {
      Check.within("days", ChronoUnit.DAYS.between(from, to) + 1, 1, LONGEST);
      Check.within("reviewDays", reviewDays, 1, 366);
    }
  }

  /** Packs ordered and not yet there. */
  public record Coming(LocalDate orderedOn, int packs) {}

  /**
   * The cupboard on the morning of a day.
   *
   * @param shelf first expiry first; nothing that has expired
   * @param waiting packs asked for earlier and not yet given
   */
  public record Morning(LocalDate day, List<Batch> shelf, List<Coming> coming, long waiting) {

    /** On hand and on order, less what waits. */
    public long position() {
      return shelf.stream().mapToLong(Batch::packs).sum()
          + coming.stream().mapToLong(Coming::packs).sum()
          - waiting;
    }
  }

  /** Who decides how many packs to order. */
  public interface Rule {
    /** Never orders. */
    Rule NONE = morning -> 0;

    /** Packs to order on that morning; 0 for none. */
    long order(Morning morning);
  }

  /**
   * A day as it went.
   *
   * @param onHand at its end
   * @param waiting at its end
   * @param missing packs asked for on the day that were not there
   */
  public record Day(
      LocalDate day, long onHand, long waiting, long missing, long ordered, long expired) {}

  /**
   * How it went.
   *
   * @param cycles from one delivery to the next, all but the last, which is not over
   * @param cyclesWithout of these, in which nothing was missing
   */
  public record Course(List<Day> days, int cycles, int cyclesWithout) {

    /** Days at whose end somebody waits. */
    public long daysShort() {
      return days.stream().filter(day -> day.waiting() > 0).count();
    }

    /** Days at whose end nothing is left. */
    public long daysEmpty() {
      return days.stream().filter(day -> day.onHand() == 0).count();
    }

    /** Packs that were asked for and not there. */
    public long packsMissing() {
      return days.stream().mapToLong(Day::missing).sum();
    }

    public long packsExpired() {
      return days.stream().mapToLong(Day::expired).sum();
    }

    public long orders() {
      return days.stream().filter(day -> day.ordered() > 0).count();
    }

    public long packsOrdered() {
      return days.stream().mapToLong(Day::ordered).sum();
    }

    /** Packs in the cupboard on an average evening. */
    public double averageOnHand() {
      return days.stream().mapToLong(Day::onHand).average().orElse(0);
    }

    /** Share of the cycles in which nothing was missing; empty while no cycle is over. */
    public OptionalDouble shareWithout() {
      return cycles == 0
          ? OptionalDouble.empty()
          : OptionalDouble.of(cyclesWithout / (double) cycles);
    }
  }

  /** Goes through the past day by day. */
  public static Course walk(Past past, Rule rule) {
    return new Walk(past, rule).go();
  }

  private static final class Walk {
    private final Past past;
    private final Rule rule;
    private final List<int[]> shelf = new ArrayList<>();
    private final TreeMap<LocalDate, List<Arrival>> due = new TreeMap<>();
    private final List<Day> days = new ArrayList<>();
    private long waiting;
    private int cycles;
    private int without;
    private boolean begun;
    private boolean missed;

    private Walk(Past past, Rule rule) {
      this.past = past;
      this.rule = rule;
      past.opening().forEach(this::put);
      past.arrivals()
          .forEach(
              arrival -> due.computeIfAbsent(arrival.day(), day -> new ArrayList<>()).add(arrival));
    }

    private Course go() {
      for (LocalDate day = past.from(); !day.isAfter(past.to()); day = day.plusDays(1)) {
        long expired = expire(day);
        arrive(day);
        long order = review(day);
        arrive(day);
        serveWaiting();
        take(past.gone().getOrDefault(day, 0));
        long asked = past.asked().getOrDefault(day, 0);
        long missing = asked - take(asked);
        waiting += missing;
        missed |= waiting > 0;
        days.add(new Day(day, onHand(), waiting, missing, order, expired));
      }
      return new Course(List.copyOf(days), cycles, without);
    }

    private long expire(LocalDate day) {
      long today = day.toEpochDay();
      long expired =
          shelf.stream().filter(batch -> batch[0] < today).mapToLong(batch -> batch[1]).sum();
      shelf.removeIf(batch -> batch[0] < today);
      return expired;
    }

    private void arrive(LocalDate day) {
      boolean delivered = false;
      Map<LocalDate, List<Arrival>> come = due.headMap(day, true);
      for (List<Arrival> arrivals : come.values()) {
        for (Arrival arrival : arrivals) {
          if (!arrival.batch().expiresOn().isBefore(day)) {
            put(arrival.batch());
          }
          delivered |= arrival.orderedOn() != null;
        }
      }
      come.clear();
      if (delivered) {
        cycles += begun ? 1 : 0;
        without += begun && !missed ? 1 : 0;
        begun = true;
        missed = false;
      }
    }

    private long review(LocalDate day) {
      if (ChronoUnit.DAYS.between(past.from(), day) % past.reviewDays() != 0) {
        return 0;
      }
      List<Batch> seen =
          shelf.stream().map(batch -> new Batch(LocalDate.ofEpochDay(batch[0]), batch[1])).toList();
      long packs = rule.order(new Morning(day, seen, coming(), waiting));
      if (packs > 0) {
        Supply supply = supply(day);
        LocalDate comes = day.plusDays(supply.leadDays());
        int count = Math.toIntExact(packs);
        due.computeIfAbsent(comes, d -> new ArrayList<>())
            .add(new Arrival(comes, new Batch(comes.plusDays(supply.keptDays()), count), day));
      }
      return Math.max(0, packs);
    }

    private List<Coming> coming() {
      List<Coming> coming = new ArrayList<>();
      for (List<Arrival> arrivals : due.values()) {
        for (Arrival arrival : arrivals) {
          LocalDate on = arrival.orderedOn();
          if (on != null) {
            coming.add(new Coming(on, arrival.batch().packs()));
          }
        }
      }
      return coming;
    }

    private Supply supply(LocalDate day) {
      Supply last = past.usual();
      for (Supply supply : past.supplies()) {
        if (!supply.orderedOn().isAfter(day)) {
          last = supply;
        }
      }
      return last;
    }

    private void serveWaiting() {
      waiting -= take(waiting);
    }

    private long take(long wanted) {
      long left = wanted;
      for (int[] batch : shelf) {
        int taken = (int) Math.min(left, batch[1]);
        batch[1] -= taken;
        left -= taken;
      }
      shelf.removeIf(batch -> batch[1] == 0);
      return wanted - left;
    }

    private void put(Batch batch) {
      shelf.add(new int[] {Math.toIntExact(batch.expiresOn().toEpochDay()), batch.packs()});
      shelf.sort(Comparator.comparingInt((int[] one) -> one[0]));
    }

    private long onHand() {
      return shelf.stream().mapToLong(batch -> batch[1]).sum();
    }
  }
}
