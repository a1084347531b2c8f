package clinic.stimshelf.calc.wear;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class WeibullTest {

  /** Figures of 05_weibull_mle.csv that the product computes; the others belong to other models. */
  private static final List<String> COMPUTED =
      List.of(
          "shape",
          "scale",
          "loglik",
          "AIC",
          "se_log_shape",
          "se_log_scale",
          "cov_log_scale_log_shape",
          "mean",
          "sd",
          "median",
          "B10",
          "B90");

  static Stream<Row> estimates() {
    return Checks.rows("05_weibull_mle.csv").stream()
        .filter(row -> COMPUTED.contains(row.text("quantity")));
  }

  static Stream<Row> lives() {
    return Checks.rows("05_weibull_reliability_mrl.csv").stream();
  }

  static Stream<Row> meanFurther() {
    return Checks.rows("08_mean_residual_life.csv").stream()
        .filter(row -> List.of("Weibull", "exponential").contains(row.text("distribution")));
  }

  /** NIST/SEMATECH e-Handbook 8.4.1.3 (W1), Abernethy C.5 (W2), 6-MP (W3), synthetic pads (W4). */
  @ParameterizedTest
  @MethodSource("estimates")
  void maximumLikelihood(Row row) {
    Weibull.Fit fit = Weibull.fit(data(row.text("id"))).orElseThrow();
    Weibull w = fit.weibull();
    double actual =
        switch (row.text("quantity")) {
          case "shape" -> w.shape();
          case "scale" -> w.scale();
          case "loglik" -> fit.logLikelihood();
          case "AIC" -> fit.aic();
          case "se_log_shape" -> fit.standardErrorLogShape();
          case "se_log_scale" -> fit.standardErrorLogScale();
          case "cov_log_scale_log_shape" -> fit.covariance();
          case "mean" -> w.mean();
          case "sd" -> w.sd();
          case "median" -> w.outlastedBy(0.5);
          case "B10" -> w.outlastedBy(0.9);
          case "B90" -> w.outlastedBy(0.1);
          default -> throw new IllegalStateException(row.text("quantity"));
        };
    double exact = row.number("computed");
    assertThat(actual).isCloseTo(exact, within(1e-9 * Math.max(1, Math.abs(exact))));
    assertThat(fit.lives()).isEqualTo(row.whole("n"));
    assertThat(fit.ended()).isEqualTo(row.whole("events"));
    if (row.text("agrees").equals("yes")) {
      assertThat(actual).isCloseTo(row.number("printed"), asPrinted(row.text("printed")));
    } else if (row.has("printed")) {
      // NIST's printed scale is where its optimiser stopped, 4.4e-4 off the maximum.
      assertThat(actual).isCloseTo(row.number("printed"), within(1e-3));
    }
  }

  @ParameterizedTest
  @MethodSource("lives")
  void reliabilityHazardAndFurtherLife(Row row) {
    Weibull w = Weibull.fit(data(row.text("id"))).orElseThrow().weibull();
    double t = row.number("t");
    near(row, "reliability", w.surviving(t));
    near(row, "hazard", w.hazard(t));
    near(row, "mean_residual_life", w.meanFurther(t));
    near(row, "cond_prob_fail_within_10pct_scale", w.endsWithin(t, w.scale() / 10));
  }

  private static void near(Row row, String column, double actual) {
    // 1e-9: the file follows R's fit, which stops there.
    assertThat(actual).isCloseTo(row.number(column), within(1e-9 * Math.max(1, Math.abs(actual))));
  }

  @ParameterizedTest
  @MethodSource("meanFurther")
  void meanFurtherLife(Row row) {
    Map<String, Double> p = parameters(row.text("params"));
    Weibull w =
        row.text("distribution").equals("Weibull")
            ? new Weibull(p.get("shape"), p.get("scale"))
            : new Weibull(1, 1 / p.get("rate"));
    assertThat(w.meanFurther(row.number("t")))
        .isCloseTo(row.number("mrl"), asPrinted(row.text("mrl")));
  }

  @ParameterizedTest
  @CsvSource({"0.3", "1", "1.7", "6", "40"})
  void furtherLifeIsSmoothWhereTheMethodChanges(double shape) {
    Weibull w = new Weibull(shape, 10);
    double change = 10 * Math.pow(1 / shape + 1, 1 / shape);
    assertThat(w.meanFurther(change * (1 + 1e-12)))
        .isCloseTo(w.meanFurther(change * (1 - 1e-12)), within(1e-9 * w.meanFurther(change)));
    // Far out the further life tends to one over the hazard.
    double far = 10 * Math.pow(1e4, 1 / shape);
    assertThat(w.meanFurther(far) * w.hazard(far)).isCloseTo(1, within(0.01));
  }

  @Test
  void thereIsNoFitWithoutEnoughToFit() {
    assertThat(Weibull.fit(List.of())).isEmpty();
    assertThat(Weibull.fit(List.of(Life.ended(3), Life.ended(4), Life.goingOn(9)))).isEmpty();
    assertThat(Weibull.fit(List.of(new Life(7, true, 5), Life.goingOn(9)))).isEmpty();
    assertThat(Weibull.fit(List.of(Life.ended(0), Life.ended(4), Life.ended(9)))).isEmpty();
    assertThat(Weibull.fit(List.of(new Life(7, false, 50)))).isEmpty();
    assertThat(Weibull.fit(List.of(new Life(7, true, 2), Life.ended(9)))).isPresent();
  }

  @Test
  void lifeSpansFarApartAndNearlyEqualAreFitted() {
    Weibull apart =
        Weibull.fit(List.of(Life.ended(1e-300), Life.ended(1), Life.ended(100_000)))
            .orElseThrow()
            .weibull();
    assertThat(apart.shape()).isBetween(1e-4, 1e-1);
    Weibull close =
        Weibull.fit(
                List.of(Life.ended(100_000), Life.ended(99_999.999_999), Life.ended(99_999.999)))
            .orElseThrow()
            .weibull();
    assertThat(close.shape()).isGreaterThan(1e7);
    assertThat(close.scale()).isCloseTo(100_000, within(0.01));
  }

  @Test
  void anEndlessLifeIsRefused() {
    List<Life> lives =
        List.of(
            new Life(1e-200, true, 1),
            new Life(1e-100, true, 1),
            new Life(1, true, 1),
            new Life(100_000, false, 1_000_000));
    assertThatThrownBy(() -> Weibull.fit(lives)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> new Weibull(Double.NaN, 1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> new Weibull(0.001, 1e300).planningUses(1e-9))
        .isInstanceOf(BadInput.class);
  }

  /** A maximum: moving either parameter a little lowers the likelihood, computed independently. */
  @Property(tries = 100)
  void noNeighbourIsLikelier(
      @ForAll @IntRange(min = 1) int seed,
      @ForAll @DoubleRange(min = 0.3, max = 6) double shape,
      @ForAll @IntRange(min = 6, max = 60) int n) {
    Random random = new Random(seed);
    List<Life> lives = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double t = 20 * Math.pow(-Math.log(1 - random.nextDouble()), 1 / shape);
      lives.add(new Life(Math.min(25, t), t < 25, 1 + random.nextInt(3)));
    }
    Weibull.fit(lives)
        .ifPresent(
            fit -> {
              Weibull w = fit.weibull();
              assertThat(likelihood(w, lives))
                  .isCloseTo(fit.logLikelihood(), within(1e-9 * lives.size()));
              for (double factor : new double[] {0.999, 1.001}) {
                assertThat(likelihood(new Weibull(w.shape() * factor, w.scale()), lives))
                    .isLessThan(fit.logLikelihood());
                assertThat(likelihood(new Weibull(w.shape(), w.scale() * factor), lives))
                    .isLessThan(fit.logLikelihood());
              }
            });
  }

  private static double likelihood(Weibull w, List<Life> lives) {
    return lives.stream()
        .mapToDouble(
            life -> {
              double logSurviving = -Math.pow(life.time() / w.scale(), w.shape());
              double log = life.ended() ? Math.log(w.hazard(life.time())) : 0;
              return life.count() * (log + logSurviving);
            })
        .sum();
  }

  @Test
  void planningCountsOnTheRatedLifeUntilEnoughSetsWore() {
    List<Life> few = List.of(new Life(12, true, 9), new Life(20, true, 10), Life.goingOn(30));
    assertThat(PlanningLife.of(few, 15, 0.9).uses()).isEqualTo(15);
    assertThat(PlanningLife.of(few, 15, 0.9).basis()).isEqualTo(PlanningLife.Basis.RATED);
    List<Life> enough = List.of(new Life(12, true, 10), new Life(20, true, 10), Life.goingOn(30));
    PlanningLife fitted = PlanningLife.of(enough, 15, 0.9);
    assertThat(fitted.basis()).isEqualTo(PlanningLife.Basis.FITTED);
    assertThat(fitted.uses())
        .isEqualTo((int) fitted.fit().orElseThrow().weibull().planningUses(0.9));
    assertThat(fitted.worn()).isEqualTo(20);
    assertThat(fitted.observed()).isEqualTo(21);
    List<Life> early = List.of(new Life(0.1, true, 15), new Life(3, true, 15));
    assertThat(PlanningLife.of(early, 15, 0.99).uses()).isEqualTo(1);
  }

  private static List<Life> data(String id) {
    return Checks.rows("05_weibull_data.csv").stream()
        .filter(row -> row.text("id").equals(id))
        .map(row -> new Life(row.number("time"), row.whole("event") == 1, row.whole("count")))
        .toList();
  }

  private static Map<String, Double> parameters(String text) {
    Map<String, Double> parameters = new HashMap<>();
    for (String pair : text.split(" ")) {
      String[] parts = pair.split("=");
      parameters.put(parts[0], Double.valueOf(parts[1]));
    }
    return parameters;
  }
}
