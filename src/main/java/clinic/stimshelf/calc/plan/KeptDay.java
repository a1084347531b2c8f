package clinic.stimshelf.calc.plan;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * The question of a {@link KeptPlan} in numbers: treatments by start, units and patients as
 * indexes. A plan is an array with a unit's index, or {@link #NONE}, for each treatment.
 */
final class KeptDay {
  static final int NONE = -1;

  /** A unit that a treatment has now and that is not among those given. */
  private static final int GONE = -2;

  private final List<BusyUnit> units;
  private final List<Treatment> treatments;
  private final Integer[] order;
  private final long[] start;
  private final long[] end;
  private final int[] now;
  private final int[] patient;
  private final boolean[][] fits;
  private final int patients;
  private final int[] group;
  private final int groups;

  KeptDay(List<BusyUnit> units, List<Treatment> treatments, Map<String, String> kept) {
    this.units = List.copyOf(units);
    this.treatments = List.copyOf(treatments);
    int n = treatments.size();
    order = IntStream.range(0, n).boxed().toArray(Integer[]::new);
    Arrays.sort(order, Comparator.comparing(i -> treatments.get(i).time().start()));
    start = new long[n];
    end = new long[n];
    now = new int[n];
    patient = new int[n];
    fits = new boolean[units.size()][n];
    Map<String, Integer> index = new HashMap<>();
    for (int u = 0; u < units.size(); u++) {
      index.put(units.get(u).id(), u);
    }
    // Somebody who comes once keeps the unit anyway.
    Map<String, Integer> often = new HashMap<>();
    treatments.forEach(each -> often.merge(String.valueOf(each.keepWith()), 1, Integer::sum));
    Map<String, Integer> people = new HashMap<>();
    for (int i = 0; i < n; i++) {
      Treatment each = treatments.get(order[i]);
      start[i] = seconds(each.time().start());
      end[i] = seconds(each.time().end());
      String has = kept.get(each.id());
      now[i] = has == null ? NONE : index.getOrDefault(has, GONE);
      String who = each.keepWith();
      patient[i] =
          who == null || often.getOrDefault(who, 0) < 2
              ? NONE
              : people.computeIfAbsent(who, key -> people.size());
      for (int u = 0; u < units.size(); u++) {
        fits[u][i] = units.get(u).freeFor(each);
      }
    }
    patients = people.size();
    group = new int[units.size()];
    groups = group();
  }

  /** Units that nobody has now and that fit the same treatments are one as good as the other. */
  private int group() {
    boolean[] kept = new boolean[units.size()];
    for (int u : now) {
      if (u >= 0) {
        kept[u] = true;
      }
    }
    Map<List<Boolean>, Integer> alike = new HashMap<>();
    int count = 0;
    for (int u = 0; u < group.length; u++) {
      if (kept[u]) {
        group[u] = count++;
        continue;
      }
      List<Boolean> row = new ArrayList<>();
      for (boolean fit : fits[u]) {
        row.add(fit);
      }
      Integer known = alike.get(row);
      group[u] = known == null ? count++ : known;
      alike.put(row, group[u]);
    }
    return count;
  }

  private static long seconds(LocalDateTime time) {
    return time.toEpochSecond(ZoneOffset.UTC);
  }

  int size() {
    return order.length;
  }

  int unitCount() {
    return units.size();
  }

  int groups() {
    return groups;
  }

  int group(int u) {
    return group[u];
  }

  int patients() {
    return patients;
  }

  long start(int i) {
    return start[i];
  }

  long end(int i) {
    return end[i];
  }

  int now(int i) {
    return now[i];
  }

  int patient(int i) {
    return patient[i];
  }

  boolean fits(int u, int i) {
    return fits[u][i];
  }

  boolean overlap(int i, int j) {
    return start[i] < end[j] && start[j] < end[i];
  }

  BusyUnit unit(int u) {
    return units.get(u);
  }

  Treatment given(int i) {
    return treatments.get(i);
  }

  int[] inGivenOrder(int[] unitOf) {
    int[] given = new int[unitOf.length];
    for (int i = 0; i < unitOf.length; i++) {
      given[order[i]] = unitOf[i];
    }
    return given;
  }

  int served(int[] unitOf) {
    return (int) Arrays.stream(unitOf).filter(u -> u != NONE).count();
  }

  /** Whether treatment i loses the unit that it has now. */
  boolean moves(int i, int u) {
    return now[i] != NONE && now[i] != u;
  }

  int moved(int[] unitOf) {
    int moved = 0;
    for (int i = 0; i < unitOf.length; i++) {
      moved += moves(i, unitOf[i]) ? 1 : 0;
    }
    return moved;
  }

  /** Treatments that cannot stay where they are, whatever else is planned. */
  int forcedMoves() {
    int forced = 0;
    for (int i = 0; i < size(); i++) {
      forced += now[i] == GONE || (now[i] >= 0 && !fits[now[i]][i]) ? 1 : 0;
    }
    return forced;
  }

  int changes(int[] unitOf) {
    int[] last = new int[patients];
    Arrays.fill(last, NONE);
    int changes = 0;
    for (int i = 0; i < unitOf.length; i++) {
      int p = patient[i];
      if (p != NONE && unitOf[i] != NONE) {
        changes += last[p] != NONE && last[p] != unitOf[i] ? 1 : 0;
        last[p] = unitOf[i];
      }
    }
    return changes;
  }

  /** Whether plan a is better than b. */
  boolean better(int[] a, int[] b) {
    int more = served(a) - served(b);
    int fewer = moved(b) - moved(a);
    return more > 0 || (more == 0 && (fewer > 0 || (fewer == 0 && changes(a) < changes(b))));
  }

  int peak() {
    int peak = 0;
    for (int i = 0; i < size(); i++) {
      int at = 0;
      for (int j = 0; j < size(); j++) {
        at += start[j] <= start[i] && start[i] < end[j] ? 1 : 0;
      }
      peak = Math.max(peak, at);
    }
    return peak;
  }

  /** A number of treatments that no plan exceeds. */
  int mostServed() {
    int bound = size();
    TreeSet<Integer> classes = new TreeSet<>();
    treatments.forEach(each -> classes.add(each.channels()));
    for (int channels : classes) {
      bound = Math.min(bound, size() - givenUp(channels));
    }
    return bound;
  }

  /** How many that need so many channels must be given up, even if their units were all alike. */
  private int givenUp(int channels) {
    record Item(long start, long end, boolean free) {}
    List<Item> items = new ArrayList<>();
    int have = 0;
    for (BusyUnit unit : units) {
      if (unit.channels() >= channels) {
        have++;
        unit.busy()
            .forEach(
                span -> items.add(new Item(seconds(span.start()), seconds(span.end()), false)));
      }
    }
    for (int i = 0; i < size(); i++) {
      if (treatments.get(order[i]).channels() >= channels) {
        items.add(new Item(start[i], end[i], true));
      }
    }
    items.sort(Comparator.comparingLong(Item::start).thenComparing(Item::free));
    List<Item> running = new ArrayList<>();
    int givenUp = 0;
    for (Item item : items) {
      running.removeIf(one -> one.end() <= item.start());
      running.add(item);
      if (running.size() > have) {
        running.stream()
            .filter(Item::free)
            .max(Comparator.comparingLong(Item::end))
            .ifPresent(running::remove);
        givenUp++;
      }
    }
    return givenUp;
  }
}
