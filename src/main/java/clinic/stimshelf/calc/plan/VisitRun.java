package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.Check;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A run of appointments out of free times: as many as asked, no more than so many a week, at least
 * so many hours from one start to the next.
 *
 * <p>Of all runs the best in this order: most appointments; earliest last day; most with the
 * preferred therapist; fewest therapists; least total distance to the wished times; earliest
 * starts, one after the other. The answer is exact. The first two come from always taking the
 * earliest time that is allowed, which stays ahead of any other run; the others from a dynamic
 * program over the free times up to that last day, once for every set of therapists in the order of
 * their number until one does.
 *
 * @param visits ascending by start; fewer than asked where the free times do not hold more
 * @param asked how many were asked for
 * @param withPreferred how many are with the preferred therapist
 * @param therapists how many different ones
 * @param distance total distance to the wished times, in the unit of the slots
 * @param <K> names a slot in the caller's words
 */
public record VisitRun<K>(
    List<Slot<K>> visits, int asked, int withPreferred, int therapists, long distance) {

  private static final int MOST_SLOTS = 3_000;
  private static final int MOST_VISITS = 60;
  private static final int MOST_A_WEEK = 14;

  /**
   * A free time.
   *
   * @param id the caller's
   * @param start when it begins
   * @param therapist who is free then
   * @param distance how far it is from what the patient wishes, for example in minutes; 0 to 1e6
   */
  public record Slot<K>(K id, LocalDateTime start, String therapist, int distance) {
    public Slot {
      Check.within("distance", distance, 0, 1_000_000);
    }
  }

  /**
   * What is asked for.
   *
   * @param visits 1 to 60
   * @param perWeek at most so many in 7 days, the weeks counted from {@code weekStart}; 1 to 14
   * @param hoursApart at least so many from one start to the next, 0 to 1 000; two visits never
   *     share a start
   * @param weekStart any day on which a week begins
   * @param preferred the preferred therapist, or null
   */
  public record Wish(
      int visits, int perWeek, int hoursApart, LocalDate weekStart, @Nullable String preferred) {
    public Wish {
      Check.within("visits", visits, 1, MOST_VISITS);
      Check.within("perWeek", perWeek, 1, MOST_A_WEEK);
      Check.within("hoursApart", hoursApart, 0, 1_000);
    }

    long week(LocalDateTime start) {
      return Math.floorDiv(ChronoUnit.DAYS.between(weekStart, start.toLocalDate()), 7);
    }

    boolean apart(LocalDateTime earlier, LocalDateTime later) {
      return earlier.isBefore(later) && !earlier.plusHours(hoursApart).isAfter(later);
    }
  }

  public VisitRun {
    visits = List.copyOf(visits);
  }

  /**
   * The best run.
   *
   * @param slots free times in any order, up to 3 000
   */
  public static <K> VisitRun<K> of(List<Slot<K>> slots, Wish wish) {
    Check.within("slots", slots.size(), 0, MOST_SLOTS);
    List<Slot<K>> ascending = new ArrayList<>(slots);
    ascending.sort(
        Comparator.<Slot<K>, LocalDateTime>comparing(Slot::start)
            .thenComparing(slot -> !Objects.equals(slot.therapist(), wish.preferred())));
    List<Slot<K>> earliest = earliest(ascending, wish);
    if (earliest.isEmpty()) {
      return new VisitRun<>(List.of(), wish.visits(), 0, 0, 0);
    }
    int count = earliest.size();
    // The day, not the hour: nobody is better off at 8 than at the wished 9 o'clock.
    LocalDate last = earliest.get(count - 1).start().toLocalDate();
    List<Slot<K>> usable =
        ascending.stream().filter(s -> !s.start().toLocalDate().isAfter(last)).toList();
    RunSearch<K> all = new RunSearch<>(usable, wish, count);
    int mostPreferred = all.preferred();
    Set<String> therapists = new LinkedHashSet<>();
    usable.forEach(slot -> therapists.add(slot.therapist()));
    List<String> names = new ArrayList<>(therapists);
    for (int number = 1; number < names.size(); number++) {
      RunSearch<K> best = null;
      for (int[] chosen = first(number); chosen.length > 0; chosen = next(chosen, names.size())) {
        Set<String> some = new LinkedHashSet<>();
        for (int index : chosen) {
          some.add(names.get(index));
        }
        List<Slot<K>> theirs =
            usable.stream().filter(slot -> some.contains(slot.therapist())).toList();
        if (earliest(theirs, wish).size() < count) {
          continue;
        }
        RunSearch<K> search = new RunSearch<>(theirs, wish, count);
        if (search.preferred() == mostPreferred && (best == null || search.isBetterThan(best))) {
          best = search;
        }
      }
      if (best != null) {
        return run(best.visits(), wish);
      }
    }
    return run(all.visits(), wish);
  }

  private static <K> VisitRun<K> run(List<Slot<K>> visits, Wish wish) {
    return new VisitRun<>(
        visits,
        wish.visits(),
        (int) visits.stream().filter(v -> v.therapist().equals(wish.preferred())).count(),
        (int) visits.stream().map(Slot::therapist).distinct().count(),
        visits.stream().mapToLong(Slot::distance).sum());
  }

  private static <K> List<Slot<K>> earliest(List<Slot<K>> ascending, Wish wish) {
    List<Slot<K>> taken = new ArrayList<>();
    long week = Long.MIN_VALUE;
    int inWeek = 0;
    for (Slot<K> slot : ascending) {
      if (taken.size() == wish.visits()) {
        break;
      }
      long slotWeek = wish.week(slot.start());
      boolean apart =
          taken.isEmpty() || wish.apart(taken.get(taken.size() - 1).start(), slot.start());
      if (apart && (slotWeek != week || inWeek < wish.perWeek())) {
        inWeek = slotWeek == week ? inWeek + 1 : 1;
        week = slotWeek;
        taken.add(slot);
      }
    }
    return taken;
  }

  private static int[] first(int number) {
    int[] chosen = new int[number];
    for (int i = 0; i < number; i++) {
      chosen[i] = i;
    }
    return chosen;
  }

  /** The next choice of as many out of {@code of}, or an empty array after the last. */
  private static int[] next(int[] chosen, int of) {
    int[] next = chosen.clone();
    for (int i = next.length - 1; i >= 0; i--) {
      if (next[i] < of - next.length + i) {
        next[i]++;
        for (int j = i + 1; j < next.length; j++) {
          next[j] = next[j - 1] + 1;
        }
        return next;
      }
    }
    return new int[0];
  }
}
