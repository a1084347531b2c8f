package clinic.stimshelf.calc;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.demand.BatchSizes;
import clinic.stimshelf.calc.demand.CompoundPoisson;
import clinic.stimshelf.calc.demand.DatedDemand;
import clinic.stimshelf.calc.demand.LeadTime;
import clinic.stimshelf.calc.plan.PlanUnit;
import clinic.stimshelf.calc.plan.Treatment;
import clinic.stimshelf.calc.plan.UnitPlan;
import clinic.stimshelf.calc.pool.LendingPool;
import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.calc.pool.Standing;
import clinic.stimshelf.calc.pool.SureBy;
import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import clinic.stimshelf.calc.wear.Weibull;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** How each function grows with its question; docs/performance.md holds what was measured. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(1)
public class CalcBenchmark {

  private static final LocalDate TODAY = LocalDate.parse("2026-05-04");

  /** Size of the question, as a share of the largest one that is aimed at. */
  @Param({"0.1", "0.3", "1"})
  public double size;

  private int units;
  private DatedDemand<Integer> demand;
  private LeadTime leadTime;
  private List<Returning> away;
  private List<Life> lives;
  private List<Treatment> treatments;
  private List<PlanUnit> planUnits;

  @Setup
  public void ask() {
    Random random = new Random(20260504);
    units = (int) (1_000 * size);
    List<DatedDemand.Dated<Integer>> dated = new ArrayList<>();
    for (int i = 0; i < 500 * size; i++) {
      dated.add(new DatedDemand.Dated<>(i, TODAY.plusDays(random.nextInt(60)), 1 + i % 2, 0.8));
    }
    CompoundPoisson starts = new CompoundPoisson(0.5, BatchSizes.of(Map.of(1, 0.5, 2, 0.5)));
    demand = DatedDemand.of(TODAY, dated, List.of(new DatedDemand.Stream<>(-1, starts)));
    leadTime = LeadTime.observed(List.of(52, 55, 56, 58, 59), LeadTime.fixed(59));
    lives = new ArrayList<>();
    for (int i = 0; i < 100_000 * size; i++) {
      double life = 20 * Math.pow(-Math.log(1 - random.nextDouble()), 1 / 2.3);
      lives.add(new Life(Math.min(30, Math.ceil(10 * life) / 10), life < 30, 1));
    }
    ProductLimit timeAway = ProductLimit.of(lives.subList(0, 2_000));
    away = new ArrayList<>();
    for (int i = 0; i < units; i++) {
      away.add(Returning.away(timeAway, random.nextInt(20), 1));
    }
    treatments = new ArrayList<>();
    LocalDateTime opening = TODAY.atTime(8, 0);
    for (int i = 0; i < 300 * size; i++) {
      LocalDateTime start = opening.plusMinutes(15L * random.nextInt(36));
      treatments.add(
          new Treatment(
              "t" + i,
              Span.of(start, start.plusMinutes(15L * (1 + random.nextInt(4)))),
              2,
              "p" + random.nextInt(120)));
    }
    planUnits = new ArrayList<>();
    for (int u = 0; u < 60 * size; u++) {
      planUnits.add(new PlanUnit("u" + u, 2));
    }
  }

  @Benchmark
  public LendingPool erlangCurve() {
    return LendingPool.of(7 * 0.999 * units, 1, 0, units, 0.05);
  }

  @Benchmark
  public DatedDemand.Reorder<Integer> reorderPoint() {
    return demand.reorder(leadTime, 1, 0.95);
  }

  @Benchmark
  public SureBy sureBy() {
    return SureBy.of(Standing.of(0, units / 4, away), 0.9);
  }

  @Benchmark
  public ProductLimit productLimit() {
    return ProductLimit.of(lives);
  }

  @Benchmark
  public Optional<Weibull.Fit> weibull() {
    return Weibull.fit(lives);
  }

  @Benchmark
  public UnitPlan unitPlan() {
    return UnitPlan.of(planUnits, treatments);
  }
}
