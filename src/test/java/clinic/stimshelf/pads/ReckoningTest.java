package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.Checks;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * From what the ledger and the other rooms know to the order level and its reasons. Values from
 * outside: checks/02_discrete_reorder_points.csv and 08_random_lead_time.csv, whose README says
 * where each comes from.
 */
class ReckoningTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 4);

  /** Facts of a cupboard, changed one by one. */
  private static final class Facts {
    private List<ReorderFacts.LotHeld> lots = List.of();
    private int owed;
    private List<ReorderFacts.Coming> coming = List.of();
    private List<DatedPacks> dated = List.of();
    private int historyDays = 182;
    private List<Integer> drawer = List.of();
    private List<Integer> appointments = List.of();
    private Treatments treatments = Treatments.NONE;
    private double noShow = 0.1;
    private List<Integer> starts = List.of();
    private List<Integer> lead = Collections.nCopies(5, 6);
    private int review = 1;
    private double service = 0.95;
    private int perCase = 1;
    private int minimum;
    private OptionalDouble orderCost = OptionalDouble.empty();
    private OptionalDouble holdingCost = OptionalDouble.empty();
    private int keptDays = 730;

    private Facts has(int packs) {
      lots = List.of(new ReorderFacts.LotHeld("A", TODAY.plusDays(700), false, packs));
      return this;
    }

    private ReorderFacts facts() {
      List<Integer> draws = Stream.of(drawer, appointments, starts).flatMap(List::stream).toList();
      return new ReorderFacts(
          "P",
          "L",
          TODAY,
          lots,
          owed,
          coming,
          dated,
          historyDays,
          drawer,
          appointments,
          treatments,
          noShow,
          starts,
          draws,
          lead,
          7,
          keptDays,
          review,
          service,
          0.9,
          perCase,
          minimum,
          orderCost,
          holdingCost);
    }

    private ReorderView answer() {
      return Reckoning.of(facts());
    }
  }

  private static Facts facts() {
    return new Facts();
  }

  private static DatedPacks program(String label, int inDays, int packs, double chance) {
    return new DatedPacks(
        "P", TODAY.plusDays(inDays), packs, chance, label, false, DatedPacks.Kind.PROGRAM);
  }

  static List<Checks.Row> poissonRows() {
    return Checks.rows("02_discrete_reorder_points.csv").stream()
        .filter(row -> row.text("distribution").equals("poisson"))
        .filter(row -> row.number("mean") <= 60)
        .toList();
  }

  @ParameterizedTest
  @MethodSource("poissonRows")
  void single_packs_from_the_drawer_give_the_tabled_poisson_level(Checks.Row row) {
    Facts facts = facts();
    facts.historyDays = 350;
    // 6 days until delivery and 1 until the next look: a fiftieth of 350 days.
    facts.drawer = Collections.nCopies((int) Math.round(50 * row.number("mean")), 1);
    facts.service = row.number("service_P1");

    ReorderView answer = facts.answer();

    assertThat(answer.meanDemand()).isCloseTo(row.number("mean"), within(1e-9));
    assertThat(answer.sdDemand()).isCloseTo(Math.sqrt(row.number("variance")), within(1e-9));
    assertThat(answer.reorderPoint()).isEqualTo((long) row.number("min_s_with_cdf_ge_P1"));
  }

  @Test
  void an_uncertain_lead_time_is_mixed_exactly() {
    Checks.Row row = Checks.rows("08_random_lead_time.csv").get(0);
    Facts facts = facts();
    facts.historyDays = 100;
    facts.drawer = Collections.nCopies(130, 1);
    // 2, 3, 4 and 6 days with 0.2, 0.5, 0.2 and 0.1, one of them until the next look.
    facts.lead = List.of(1, 1, 2, 2, 2, 2, 2, 3, 3, 5);

    for (String level : List.of("0.90:q90", "0.95:q95", "0.99:q99")) {
      facts.service = Double.parseDouble(level.substring(0, 4));
      assertThat(facts.answer().reorderPoint()).isEqualTo((long) row.number(level.substring(5)));
    }
    assertThat(facts.answer().meanDemand()).isCloseTo(row.number("mean"), within(1e-9));
    assertThat(facts.answer().sdDemand())
        .isCloseTo(Math.sqrt(row.number("variance")), within(1e-9));
  }

  @Test
  void booked_treatments_thinned_by_no_shows_stand_for_their_share_of_the_usual_use() {
    Facts facts = facts();
    facts.appointments = Collections.nCopies(52, 1);
    // Half a pack a treatment; two a week in the clinic over 26 weeks.
    facts.treatments =
        new Treatments(
            List.of(TODAY, TODAY.plusDays(2), TODAY.plusDays(6), TODAY.plusDays(7)), 104, 0);
    facts.noShow = 0.1;

    ReorderView answer = facts.answer();

    // Seven days from today on: three of the four; 3 x 0.5 x 0.9 packs known, 2 usual.
    assertThat(answer.meanDemand()).isCloseTo(2, within(1e-9));
    assertThat(answer.reasons())
        .filteredOn(reason -> reason.kind().equals("appointment"))
        .extracting(reason -> reason.packs().doubleValue())
        .containsExactly(1.35, 0.65);

    facts.treatments = new Treatments(Collections.nCopies(10, TODAY.plusDays(1)), 104, 0);
    assertThat(facts.answer().meanDemand())
        .as("more is booked than usual: nothing comes on top")
        .isCloseTo(4.5, within(1e-9));
  }

  @Test
  void the_no_show_rate_is_the_clinics_own_from_twenty_treatments_on() {
    assertThat(new Treatments(List.of(), 15, 4).noShow(0.1)).isEqualTo(0.1);
    assertThat(new Treatments(List.of(), 15, 5).noShow(0.1)).isEqualTo(0.25);
  }

  @Test
  void new_starts_are_fewer_by_those_that_are_written_already() {
    Facts facts = facts();
    facts.starts = Collections.nCopies(52, 2);
    // Two a week, four packs.
    assertThat(facts.answer().meanDemand()).isCloseTo(4, within(1e-9));

    facts.dated =
        List.of(
            new DatedPacks(
                "P", TODAY.plusDays(3), 3, 1, "surgery", false, DatedPacks.Kind.SURGERY));
    ReorderView answer = facts.answer();

    assertThat(answer.meanDemand())
        .as("three known, one of two unknown")
        .isCloseTo(5, within(1e-9));
    assertThat(answer.reasons())
        .filteredOn(reason -> reason.kind().equals("new-starts"))
        .extracting(reason -> reason.packs().doubleValue())
        .containsExactly(2.0);
  }

  @Test
  void the_reasons_sum_to_the_order_level_exactly() {
    Facts facts = facts();
    facts.dated = List.of(program("one", 2, 3, 1), program("two", 4, 2, 0.83));
    facts.drawer = List.of(1, 2, 1, 5, 1, 1, 3);
    facts.appointments = List.of(1, 1, 1);
    facts.starts = List.of(2, 4, 2, 2);

    ReorderView answer = facts.answer();

    assertThat(answer.reasons())
        .extracting(ReorderView.Reason::kind)
        .containsExactly("program", "program", "appointment", "drawer", "new-starts", "safety");
    BigDecimal sum =
        answer.reasons().stream()
            .map(ReorderView.Reason::packs)
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    assertThat(sum).isEqualByComparingTo(BigDecimal.valueOf(answer.reorderPoint()));
    assertThat(answer.safetyStock())
        .isCloseTo(answer.reorderPoint() - answer.meanDemand(), within(1e-12));
  }

  @Test
  void what_is_due_for_certain_within_the_span_is_the_level_itself() {
    Facts facts = facts();
    // Today is day 0 of 7: day 6 is the last within, day 7 is not.
    facts.dated = List.of(program("in", 6, 4, 1), program("out", 7, 9, 1));

    assertThat(facts.answer().reorderPoint()).isEqualTo(4);
    assertThat(facts.answer().meanDemand()).isEqualTo(4);
  }

  @Test
  void booked_appointments_stand_instead_of_their_history() {
    Facts facts = facts();
    facts.appointments = List.of(1, 1, 1, 1, 1, 1);
    facts.dated =
        List.of(
            new DatedPacks(
                "P", TODAY.plusDays(1), 1, 0.9, "x", false, DatedPacks.Kind.APPOINTMENT));

    assertThat(facts.answer().reasons())
        .filteredOn(reason -> reason.kind().equals("appointment"))
        .hasSize(1)
        .first()
        .extracting(ReorderView.Reason::packs)
        .isEqualTo(new BigDecimal("0.90"));
  }

  @Test
  void the_position_is_on_hand_less_held_back_and_expired_plus_coming_less_owed() {
    Facts facts = facts();
    facts.lots =
        List.of(
            new ReorderFacts.LotHeld("OLD AND HELD", TODAY.minusDays(1), true, 3),
            new ReorderFacts.LotHeld("LAST DAY", TODAY, false, 5),
            new ReorderFacts.LotHeld("HELD", TODAY.plusDays(90), true, 7),
            new ReorderFacts.LotHeld("GOOD", TODAY.plusDays(90), false, 20));
    facts.coming = List.of(new ReorderFacts.Coming(TODAY.plusDays(2), 10));
    facts.owed = 4;

    ReorderFacts made = facts.facts();

    assertThat(made.onHand()).isEqualTo(35);
    assertThat(made.expired()).isEqualTo(3);
    assertThat(made.quarantined()).as("not expired").isEqualTo(7);
    assertThat(made.position()).isEqualTo(35 - 7 - 3 + 10 - 4);
  }

  @Test
  void an_order_lifts_the_position_above_the_level_in_whole_cases() {
    Facts facts = facts().has(3);
    facts.dated = List.of(program("a", 2, 8, 1));
    assertThat(facts.answer().orderQuantity()).as("8 + 1 - 3").isEqualTo(6);

    facts.perCase = 10;
    assertThat(facts.answer().orderQuantity()).isEqualTo(10);

    facts.minimum = 25;
    assertThat(facts.answer().orderQuantity()).isEqualTo(30);
  }

  @Test
  void nothing_is_ordered_above_the_level_and_something_at_it() {
    Facts facts = facts().has(9);
    facts.dated = List.of(program("a", 2, 8, 1));
    assertThat(facts.answer().orderQuantity()).isZero();
    facts.has(8);
    assertThat(facts.answer().orderQuantity()).isPositive();
  }

  @Test
  void what_nobody_uses_is_not_ordered_but_what_is_owed_is() {
    assertThat(facts().answer().orderQuantity()).isZero();
    Facts facts = facts();
    facts.owed = 2;
    assertThat(facts.answer().orderQuantity()).isEqualTo(3);
  }

  @Test
  void the_economic_quantity_counts_where_both_costs_are_known() {
    Facts facts = facts();
    facts.historyDays = 182;
    facts.drawer = Collections.nCopies(182, 1);
    facts.orderCost = OptionalDouble.of(20);
    facts.holdingCost = OptionalDouble.of(2);
    // Wilson: sqrt(2 · 365 · 1 · 20 / 2) = 85.4.
    assertThat(facts.answer().orderQuantity()).isEqualTo(86);
  }

  @Test
  void an_order_is_cut_to_what_is_used_before_it_expires() {
    Facts facts = facts();
    facts.historyDays = 182;
    facts.drawer = Collections.nCopies(18, 1);
    facts.orderCost = OptionalDouble.of(500);
    facts.holdingCost = OptionalDouble.of(1);
    facts.keptDays = 106;
    facts.perCase = 5;

    ReorderView answer = facts.answer();

    // 100 days at 18/182 a day: Poisson 9.89; P(D >= 5) = .97, P(D >= 10) = .53: one case of 5.
    assertThat(answer.orderQuantity()).isEqualTo(5);
    assertThat(answer.warnings()).anyMatch(warning -> warning.contains("made smaller"));
  }

  @Test
  void the_projection_runs_at_least_28_days_and_its_chance_only_grows_without_a_delivery() {
    Facts facts = facts().has(12);
    facts.drawer = Collections.nCopies(91, 1);
    facts.dated = List.of(program("a", 10, 3, 1));

    List<ReorderView.Day> days = facts.answer().projection();

    assertThat(days).hasSizeGreaterThanOrEqualTo(28);
    assertThat(days.get(0).date()).isEqualTo(TODAY);
    assertThat(days.get(0).expected()).isCloseTo(11.5, within(1e-9));
    assertThat(days.get(10).expected()).isCloseTo(12 - 5.5 - 3, within(1e-9));
    for (int n = 1; n < days.size(); n++) {
      assertThat(days.get(n).date()).isEqualTo(TODAY.plusDays(n));
      assertThat(days.get(n).stockoutChance())
          .isGreaterThanOrEqualTo(days.get(n - 1).stockoutChance());
      assertThat(days.get(n).low()).isLessThanOrEqualTo(days.get(n).high());
    }
  }

  @Test
  void cover_ends_on_the_first_day_below_one_pack() {
    Facts facts = facts().has(10);
    facts.drawer = Collections.nCopies(182, 1);
    // One a day: 1 left after 9 days, 0 after 10.
    assertThat(facts.answer().coverDays()).isEqualTo(9);

    facts.has(200);
    assertThat(facts.answer().coverDays()).as("beyond the days looked at").isEqualTo(199);

    facts.drawer = List.of();
    assertThat(facts.answer().coverDays()).isNull();
  }

  @Test
  void says_what_will_expire_unused() {
    Facts facts = facts();
    facts.drawer = Collections.nCopies(182, 1);
    facts.lots =
        List.of(
            new ReorderFacts.LotHeld("SOON", TODAY.plusDays(4), false, 8),
            new ReorderFacts.LotHeld("LATER", TODAY.plusDays(300), false, 10));

    ReorderView answer = facts.answer();

    // One a day, today to the last day: 5 used, 3 left.
    assertThat(answer.expiring())
        .containsExactly(new ReorderView.Expiring("SOON", TODAY.plusDays(4), 3));
    assertThat(answer.projection().get(5).expected())
        .as("lost the day after: 18 - 6 - 3")
        .isCloseTo(9, within(1e-9));
  }

  @Test
  void equal_facts_are_equal_so_that_nothing_is_reckoned_twice() {
    assertThat(facts().has(3).facts()).isEqualTo(facts().has(3).facts());
    assertThat(facts().has(3).facts()).isNotEqualTo(facts().has(4).facts());
  }
}
