package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Started at position s, the share of simulated stretches of lead time and review without a
 * stock-out is the stated level, and with one pack less it is not. The simulation draws days,
 * takings and lead times one by one and shares nothing with the reckoning but the facts.
 */
class ServiceLevelBySimulationTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 4);
  private static final int RUNS = 40_000;

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14, 15, 16})
  void the_share_without_stock_out_is_the_level(long seed) {
    RandomGenerator chance = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
    double level = new double[] {0.8, 0.9, 0.95, 0.98}[chance.nextInt(4)];
    holds(facts(chance, level), chance, "seed " + seed);
  }

  /** The same with what the demo clinic really drew in its last 26 weeks, and its deliveries. */
  @ParameterizedTest
  @CsvSource({"HARBOR, 0.98", "MILL, 0.95"})
  void it_is_on_the_demo_too(String location, double level) throws IOException {
    RandomGenerator chance = RandomGeneratorFactory.of("L64X128MixRandom").create(21);
    int tried = 0;
    for (NamedCsvRecord type : seed("pad-types")) {
      ReorderFacts facts = demo(location, type.getField("code"), level);
      if (!facts.draws().isEmpty() && !facts.pastLeadDays().isEmpty()) {
        holds(facts, chance, location + " " + type.getField("code"));
        tried++;
      }
    }
    assertThat(tried).isGreaterThan(1);
  }

  private static void holds(ReorderFacts facts, RandomGenerator chance, String seed) {
    double level = facts.serviceLevel();
    long s = Reckoning.of(facts).reorderPoint();
    int enough = 0;
    int enoughWithOneLess = 0;
    for (int run = 0; run < RUNS; run++) {
      long asked = asked(facts, chance);
      enough += asked <= s ? 1 : 0;
      enoughWithOneLess += asked <= s - 1 ? 1 : 0;
    }
    // Four standard errors of a share: one false alarm in 16 000.
    double error = 4 * Math.sqrt(level * (1 - level) / RUNS);
    assertThat(enough / (double) RUNS).as("%s, s %s", seed, s).isGreaterThan(level - error);
    assertThat(enoughWithOneLess / (double) RUNS)
        .as("%s, one pack less than %s", seed, s)
        .isLessThan(level + error);
  }

  /** Drawer, starts, treatments and programs, drawn from stated distributions. */
  private static ReorderFacts facts(RandomGenerator chance, double level) {
    List<DatedPacks> dated = new ArrayList<>();
    for (int n = 0; n < 12; n++) {
      dated.add(
          new DatedPacks(
              "P",
              TODAY.plusDays(chance.nextInt(25)),
              1 + chance.nextInt(3),
              0.5 + 0.5 * chance.nextDouble(),
              "program " + n,
              false,
              n == 0 ? DatedPacks.Kind.SURGERY : DatedPacks.Kind.PROGRAM));
    }
    List<LocalDate> booked = new ArrayList<>();
    for (int n = 0; n < 30; n++) {
      booked.add(TODAY.plusDays(chance.nextInt(20)));
    }
    booked.sort(null);
    List<Integer> drawer = sizes(chance, 30, 3);
    List<Integer> starts = sizes(chance, 20, 4);
    List<Integer> uses = sizes(chance, 100, 1);
    return new ReorderFacts(
        "P",
        "L",
        TODAY,
        List.of(),
        0,
        List.of(),
        dated,
        182,
        drawer,
        uses,
        new Treatments(booked, 400, 40),
        0.1,
        starts,
        Stream.of(drawer, starts, uses).flatMap(List::stream).toList(),
        List.of(4, 6, 6, 7, 9, 13),
        7,
        700,
        7,
        level,
        0.9,
        1,
        0,
        OptionalDouble.empty(),
        OptionalDouble.empty());
  }

  private static List<NamedCsvRecord> seed(String file) throws IOException {
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder().ofNamedCsvRecord(Path.of("seed", file + ".csv"))) {
      return reader.stream().toList();
    }
  }

  /** "w-3.2T09:30": three weeks before this week's Monday, the second day. */
  private static int daysAgo(String text) {
    Matcher day = Pattern.compile("w([+-]\\d+)\\.(\\d).*").matcher(text);
    assertThat(day.matches()).as(text).isTrue();
    return -7 * Integer.parseInt(day.group(1)) - Integer.parseInt(day.group(2)) + 1;
  }

  private static ReorderFacts demo(String location, String code, double level) throws IOException {
    List<Integer> drawer = new ArrayList<>();
    for (NamedCsvRecord row : seed("drawer-takes")) {
      if (here(row, location, code) && daysAgo(row.getField("happened_at")) <= 182) {
        drawer.add(Integer.parseInt(row.getField("packs")));
      }
    }
    Map<String, Integer> starts = new TreeMap<>();
    for (NamedCsvRecord row : seed("packs-given")) {
      if (here(row, location, code) && daysAgo(row.getField("happened_at")) <= 182) {
        starts.merge(row.getField("loan"), Integer.parseInt(row.getField("packs")), Integer::sum);
      }
    }
    List<Integer> lead = new ArrayList<>();
    for (NamedCsvRecord row : seed("deliveries")) {
      if (here(row, location, code)) {
        lead.add(daysAgo(row.getField("ordered_on")) - daysAgo(row.getField("happened_at")));
      }
    }
    List<Integer> given = List.copyOf(starts.values());
    return new ReorderFacts(
        code,
        location,
        TODAY,
        List.of(),
        0,
        List.of(),
        List.of(),
        182,
        drawer,
        List.of(),
        Treatments.NONE,
        0.1,
        given,
        Stream.of(drawer, given).flatMap(List::stream).toList(),
        lead,
        7,
        700,
        7,
        level,
        0.9,
        1,
        0,
        OptionalDouble.empty(),
        OptionalDouble.empty());
  }

  private static boolean here(NamedCsvRecord row, String location, String code) {
    return row.getField("location").equals(location) && row.getField("code").equals(code);
  }

  private static List<Integer> sizes(RandomGenerator chance, int takings, int most) {
    List<Integer> sizes = new ArrayList<>();
    for (int n = 0; n < takings; n++) {
      sizes.add(1 + chance.nextInt(most));
    }
    return sizes;
  }

  private static long asked(ReorderFacts facts, RandomGenerator chance) {
    List<Integer> lead = facts.pastLeadDays();
    int days = lead.get(chance.nextInt(lead.size())) + facts.reviewDays();
    double span =
        lead.stream().mapToInt(Integer::intValue).average().orElseThrow() + facts.reviewDays();
    long asked = 0;
    for (DatedPacks packs : facts.dated()) {
      boolean within = ChronoUnit.DAYS.between(facts.today(), packs.on()) < days;
      asked += within && chance.nextDouble() < packs.chance() ? packs.packs() : 0;
    }
    double use = facts.appointmentUses().size() / Math.max(1.0, facts.treatments().held());
    long bookedWithin = 0;
    for (LocalDate day : facts.treatments().booked()) {
      bookedWithin += ChronoUnit.DAYS.between(facts.today(), day) < Math.ceil(span) ? 1 : 0;
      boolean within = ChronoUnit.DAYS.between(facts.today(), day) < days;
      asked += within && chance.nextDouble() < use * 0.9 ? 1 : 0;
    }
    double usual = facts.appointmentUses().size() * span / 182;
    double unbooked = usual == 0 ? 0 : Math.max(0, 1 - bookedWithin * use * 0.9 / usual);
    long written =
        facts.dated().stream()
            .filter(p -> p.kind() == DatedPacks.Kind.SURGERY)
            .filter(p -> ChronoUnit.DAYS.between(facts.today(), p.on()) < Math.ceil(span))
            .count();
    double unwritten = Math.max(0, 1 - written / (facts.newStarts().size() * span / 182));
    asked += takings(facts.drawerTakes(), 1, days, chance);
    asked += takings(facts.newStarts(), unwritten, days, chance);
    asked += takings(facts.appointmentUses(), unbooked, days, chance);
    return asked;
  }

  /** A taking each time the exponential clock rings. */
  private static long takings(List<Integer> sizes, double share, int days, RandomGenerator chance) {
    double perDay = share * sizes.size() / 182;
    if (perDay == 0) {
      return 0;
    }
    long packs = 0;
    double at = -Math.log(1 - chance.nextDouble()) / perDay;
    while (at <= days) {
      packs += sizes.get(chance.nextInt(sizes.size()));
      at -= Math.log(1 - chance.nextDouble()) / perDay;
    }
    return packs;
  }
}
