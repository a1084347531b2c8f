package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.Check;
import clinic.stimshelf.calc.days.Span;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Who takes over the visits of a therapist who is away. A therapist sees so many patients at once
 * and none while off. As many visits as possible are covered; each goes to whoever has the fewest
 * others at that time, as far as that covers as many.
 *
 * <p>Every choice is compared, visit by visit in the order of their starts, leaving out those that
 * cannot cover more than the best so far, for as many steps as are allowed.
 *
 * @param therapistOf therapist by visit, of those that are covered
 * @param uncovered ids of visits that nobody can take, in the order given
 * @param proven whether no choice covers more
 */
public record CoverPlan(Map<String, String> therapistOf, List<String> uncovered, boolean proven) {
  private static final long STEPS = 200_000;

  /**
   * Somebody who could take visits over.
   *
   * @param atOnce patients seen at the same time, 1 or more
   * @param booked visits that stand already
   * @param off when no patient is seen
   */
  public record Therapist(
      String id, int atOnce, List<Span<LocalDateTime>> booked, List<Span<LocalDateTime>> off) {
    public Therapist {
      Check.within("atOnce", atOnce, 1, 1_000);
      booked = List.copyOf(booked);
      off = List.copyOf(off);
    }
  }

  /** A visit to be covered. */
  public record Visit(String id, Span<LocalDateTime> time) {}

  public CoverPlan {
    therapistOf = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(therapistOf));
    uncovered = List.copyOf(uncovered);
  }

  /** The best cover. */
  public static CoverPlan of(List<Therapist> therapists, List<Visit> visits) {
    return new Search(therapists, visits).plan();
  }

  private static final class Search {
    private final List<Therapist> therapists;
    private final List<Visit> given;
    private final List<Visit> visits;
    private final List<List<Span<LocalDateTime>>> load = new ArrayList<>();
    private final int[] chosen;
    private int[] best;
    private int bestCovered = -1;
    private int possible;
    private long steps;

    Search(List<Therapist> therapists, List<Visit> visits) {
      this.therapists = List.copyOf(therapists);
      this.given = List.copyOf(visits);
      this.visits =
          visits.stream().sorted(Comparator.comparing(visit -> visit.time().start())).toList();
      this.chosen = new int[visits.size()];
      this.best = new int[visits.size()];
      Arrays.fill(chosen, -1);
      this.therapists.forEach(each -> load.add(new ArrayList<>(each.booked())));
    }

    CoverPlan plan() {
      for (Visit visit : visits) {
        possible += able(visit).isEmpty() ? 0 : 1;
      }
      cover(0, 0);
      Map<String, String> found = new LinkedHashMap<>();
      for (int i = 0; i < best.length; i++) {
        if (best[i] >= 0) {
          found.put(visits.get(i).id(), therapists.get(best[i]).id());
        }
      }
      List<String> uncovered =
          given.stream().map(Visit::id).filter(id -> !found.containsKey(id)).toList();
      return new CoverPlan(found, uncovered, bestCovered == possible || steps < STEPS);
    }

    private void cover(int i, int covered) {
      if (bestCovered == possible
          || covered + visits.size() - i <= bestCovered
          || ++steps >= STEPS && bestCovered >= 0) {
        return;
      }
      if (i == visits.size()) {
        bestCovered = covered;
        best = chosen.clone();
        return;
      }
      for (int who : able(visits.get(i))) {
        load.get(who).add(visits.get(i).time());
        chosen[i] = who;
        cover(i + 1, covered + 1);
        chosen[i] = -1;
        load.get(who).remove(load.get(who).size() - 1);
      }
      cover(i + 1, covered);
    }

    /** Who can take the visit as things stand, the least busy first. */
    private List<Integer> able(Visit visit) {
      List<Integer> able = new ArrayList<>();
      int[] others = new int[therapists.size()];
      for (int t = 0; t < therapists.size(); t++) {
        Therapist one = therapists.get(t);
        others[t] = mostAtOnce(visit.time(), load.get(t));
        if (others[t] < one.atOnce()
            && one.off().stream().noneMatch(off -> off.overlaps(visit.time()))) {
          able.add(t);
        }
      }
      able.sort(Comparator.comparingInt(t -> others[t]));
      return able;
    }
  }

  /** How many of the others run at once at the busiest moment of the span. */
  public static <T extends Comparable<? super T>> int mostAtOnce(
      Span<T> span, List<Span<T>> others) {
    int most = 0;
    for (Span<T> one : others) {
      if (!one.overlaps(span)) {
        continue;
      }
      T moment = one.start().compareTo(span.start()) < 0 ? span.start() : one.start();
      int at = 0;
      for (Span<T> other : others) {
        at += other.contains(moment) ? 1 : 0;
      }
      most = Math.max(most, at);
    }
    return most;
  }
}
