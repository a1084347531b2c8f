package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Use;
import clinic.stimshelf.program.Course;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What programs used in a period, cut as finely as it is known: by program, pad type, lot and
 * location.
 *
 * @param slices nothing stands in two of them
 * @param courses by program; a slice may name a program that is not here
 */
record PeriodUse(List<Slice> slices, Map<Long, Course> courses) {

  /**
   * @param programId {@code null} where nobody knows which program the packs went to
   * @param lotId {@code null} where a program was given nothing in the period
   */
  record Key(Long programId, String padCode, Long lotId, String lot, Long locationId) {}

  /**
   * @param planned packs that the planned sessions are worth
   */
  record Slice(Key key, BigDecimal planned, Use use) {}

  private record Line(Long programId, String padCode) {}

  /** Reads a period's records together. */
  static final class Builder {
    private final Map<Long, Course> courses = new LinkedHashMap<>();
    private final Map<Line, BigDecimal> planned = new LinkedHashMap<>();
    private final Map<Line, BigDecimal> worth = new LinkedHashMap<>();
    private final Map<Key, Long> packs = new LinkedHashMap<>();
    private final Map<Key, BigDecimal> wasted = new LinkedHashMap<>();
    private final Prices prices;

    Builder(List<Course> courses, Prices prices) {
      this.prices = prices;
      for (Course course : courses) {
        this.courses.put(course.programId(), course);
        for (Course.Line line : course.lines()) {
          Line key = new Line(course.programId(), line.padCode());
          planned.merge(key, worth(line, line.planned()), BigDecimal::add);
          worth.merge(key, worth(line, line.done()), BigDecimal::add);
        }
      }
    }

    /** Packs that sessions are worth: sessions · pads a session / (pads a pack · planned uses). */
    static BigDecimal worth(Course.Line line, int sessions) {
      return BigDecimal.valueOf((long) sessions * line.perSession())
          .divide(
              BigDecimal.valueOf((long) line.padsPerPack() * line.usesPerSet()),
              Use.PLACES,
              RoundingMode.HALF_EVEN);
    }

    Builder given(List<PackRecords.Given> given) {
      for (PackRecords.Given one : given) {
        Long program = one.programId() == null ? onlyProgramOf(one.patientId()) : one.programId();
        packs.merge(
            new Key(program, one.padCode(), one.lotId(), one.lot(), one.locationId()),
            one.packs(),
            Long::sum);
      }
      return this;
    }

    Builder wasted(List<PackRecords.Wasted> sets) {
      for (PackRecords.Wasted one : sets) {
        if (one.packs().signum() > 0) {
          wasted.merge(
              new Key(one.programId(), one.padCode(), one.lotId(), one.lot(), one.locationId()),
              one.packs(),
              BigDecimal::add);
        }
      }
      return this;
    }

    PeriodUse build() {
      Map<Key, BigDecimal[]> worths = new LinkedHashMap<>();
      Map<Line, List<Map.Entry<Key, Long>>> got =
          packs.entrySet().stream()
              .filter(one -> one.getValue() > 0)
              .collect(Collectors.groupingBy(one -> line(one.getKey())));
      planned.forEach(
          (line, plan) ->
              share(line, plan, worth.get(line), got.getOrDefault(line, List.of()), worths));
      Map<Key, Slice> slices = new LinkedHashMap<>();
      worths.keySet().forEach(key -> slices.put(key, null));
      packs.keySet().forEach(key -> slices.put(key, null));
      wasted.keySet().forEach(key -> slices.put(key, null));
      slices.replaceAll((key, none) -> slice(key, worths));
      List<Slice> used = new ArrayList<>(slices.values());
      used.removeIf(
          slice ->
              slice.planned().signum() == 0
                  && slice.use().worth().signum() == 0
                  && slice.use().packs().signum() == 0
                  && slice.use().waste().signum() == 0);
      return new PeriodUse(used, courses);
    }

    private Slice slice(Key key, Map<Key, BigDecimal[]> worths) {
      BigDecimal[] worth =
          worths.getOrDefault(key, new BigDecimal[] {BigDecimal.ZERO, BigDecimal.ZERO});
      BigDecimal number = BigDecimal.valueOf(packs.getOrDefault(key, 0L));
      return new Slice(
          key,
          worth[0],
          new Use(
              number,
              wasted.getOrDefault(key, BigDecimal.ZERO),
              worth[1],
              number.multiply(prices.paid(key.padCode(), key.lotId()))));
    }

    /** A program's sessions are shared among the lots it was given packs of, by their packs. */
    private void share(
        Line line,
        BigDecimal plan,
        BigDecimal done,
        List<Map.Entry<Key, Long>> got,
        Map<Key, BigDecimal[]> worths) {
      if (got.isEmpty()) {
        Long at = courses.get(line.programId()).locationId();
        worths.put(
            new Key(line.programId(), line.padCode(), null, null, at),
            new BigDecimal[] {plan, done});
        return;
      }
      long all = got.stream().mapToLong(Map.Entry::getValue).sum();
      BigDecimal planLeft = plan;
      BigDecimal doneLeft = done;
      for (int i = 0; i < got.size(); i++) {
        boolean last = i == got.size() - 1;
        BigDecimal planShare = last ? planLeft : part(plan, got.get(i).getValue(), all);
        BigDecimal doneShare = last ? doneLeft : part(done, got.get(i).getValue(), all);
        planLeft = planLeft.subtract(planShare);
        doneLeft = doneLeft.subtract(doneShare);
        worths.put(got.get(i).getKey(), new BigDecimal[] {planShare, doneShare});
      }
    }

    private static BigDecimal part(BigDecimal whole, long packs, long all) {
      return whole
          .multiply(BigDecimal.valueOf(packs))
          .divide(BigDecimal.valueOf(all), Use.PLACES, RoundingMode.HALF_EVEN);
    }

    private static Line line(Key key) {
      return new Line(key.programId(), key.padCode());
    }

    private Long onlyProgramOf(Long patientId) {
      List<Long> programs =
          courses.values().stream()
              .filter(course -> course.patientId().equals(patientId))
              .map(Course::programId)
              .toList();
      return programs.size() == 1 ? programs.get(0) : null;
    }
  }
}
