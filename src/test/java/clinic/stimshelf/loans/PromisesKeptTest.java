package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.SimulatedLending.Told;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * What people are told is kept as often as it says: simulated years of a loose, a busy and an
 * overbooked clinic, in which the product's own code states the chances from what it could know.
 * Requests for which a unit stood on the shelf are left out: they are kept as good as always.
 */
class PromisesKeptTest {
  private static final double LEVEL = 0.9;
  private static final int UNITS = 12;
  private static final List<Double> LOADS = List.of(0.7, 0.85, 0.95);
  private static final int YEARS = 16;

  private static List<Told> told;

  @BeforeAll
  static void simulate() {
    told = new ArrayList<>();
    for (double load : LOADS) {
      IntStream.rangeClosed(1, YEARS)
          .mapToObj(seed -> SimulatedLending.year(seed, UNITS, load, LEVEL))
          .flatMap(List::stream)
          .filter(one -> !one.shelf())
          .forEach(told::add);
    }
  }

  @Test
  void sureByDaysAreKeptAsOftenAsTheyAreSaidToBe() {
    List<Told> promised = told.stream().filter(one -> one.days() != null).toList();
    assertThat(promised).hasSizeGreaterThan(1_500);
    groups(promised, Told::chance, Told::kept, 0.9, 0.92, 0.94, 0.96, 0.98, 1);
  }

  @Test
  void chancesOnTheWishedDayComeTrueAsOftenAsTheyAreSaidTo() {
    groups(told, Told::onWished, Told::served, 0, 0.25, 0.5, 0.75, 1);
  }

  @Test
  void overAllAtLeastAsManyAreKeptAsTheLocationWants() {
    List<Told> promised = told.stream().filter(one -> one.days() != null).toList();
    assertThat(share(promised, Told::kept)).isGreaterThanOrEqualTo(LEVEL);
  }

  /** Promises that are kept by being made for far too late a day would be worth nothing. */
  @Test
  void daysAreNotPutOffToBeSafe() {
    List<Told> justSure =
        told.stream().filter(one -> one.days() != null && one.chance() < 0.92).toList();
    assertThat(share(justSure, Told::kept)).isLessThan(0.96);
  }

  private static void groups(
      List<Told> all, ToDoubleFunction<Told> stated, Predicate<Told> kept, double... ends) {
    SoftAssertions softly = new SoftAssertions();
    for (int i = 0; i + 1 < ends.length; i++) {
      double low = ends[i];
      double high = i + 2 == ends.length ? 2 : ends[i + 1];
      List<Told> group =
          all.stream()
              .filter(one -> stated.applyAsDouble(one) >= low && stated.applyAsDouble(one) < high)
              .toList();
      double mean = group.stream().mapToDouble(stated).average().orElseThrow();
      double error = Math.sqrt(mean * (1 - mean) / group.size());
      softly
          .assertThat(Math.abs(share(group, kept) - mean))
          .as(
              String.format(
                  Locale.US,
                  "%d promises from %.2f: said %.3f, kept %.3f",
                  group.size(),
                  low,
                  mean,
                  share(group, kept)))
          .isLessThanOrEqualTo(0.03 + 2 * error);
    }
    softly.assertAll();
  }

  private static double share(List<Told> all, Predicate<Told> kept) {
    return all.stream().filter(kept).count() / (double) all.size();
  }
}
