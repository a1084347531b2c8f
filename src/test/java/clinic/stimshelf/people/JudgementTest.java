package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.people.Judgement.Cleared;
import clinic.stimshelf.people.Judgement.Given;
import clinic.stimshelf.people.Judgement.Screened;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class JudgementTest {
  private static final LocalDate DAY = LocalDate.of(2026, 3, 4);
  private final Questions questions = QuestionsTest.shipped();
  private final BodyRegion thigh = MusclesTest.shipped().region("thigh");
  private final Judgement home = judgement(DAY, true);

  @Test
  void nothing_stands_against_a_fresh_screening_without_a_yes() {
    ScreeningStatus status = judge(screened(Side.LEFT));
    assertThat(status.clear()).isTrue();
    assertThat(status.current()).isTrue();
    assertThat(status.screeningId()).isEqualTo(1L);
  }

  @Test
  void without_a_screening_there_is_one_thing_to_do() {
    ScreeningStatus status = home.of(Side.LEFT, List.of(), List.of());
    assertThat(status.current()).isFalse();
    assertThat(status.screeningId()).isNull();
    assertThat(status.reasons())
        .containsExactly(
            "No screening of the left thigh is on record."
                + " A therapist screens the patient for it first.");
  }

  @Test
  void a_screening_holds_for_its_side_only() {
    assertThat(home.of(Side.RIGHT, List.of(screened(Side.LEFT)), List.of()).current()).isFalse();
    assertThat(home.of(Side.BOTH, List.of(screened(Side.LEFT)), List.of()).reasons())
        .singleElement()
        .asString()
        .startsWith("No screening of the right thigh");
    assertThat(home.of(Side.RIGHT, List.of(screened(Side.BOTH)), List.of()).clear()).isTrue();
    assertThat(
            home.of(Side.BOTH, List.of(screened(Side.LEFT), screened(Side.RIGHT)), List.of())
                .clear())
        .isTrue();
  }

  @Test
  void it_is_stale_after_the_set_days_and_not_on_the_last_of_them() {
    assertThat(judgement(DAY.plusDays(30), true).of(Side.LEFT, one(), List.of()).clear()).isTrue();
    ScreeningStatus status = judgement(DAY.plusDays(31), true).of(Side.LEFT, one(), List.of());
    assertThat(status.current()).isFalse();
    assertThat(status.reasons())
        .containsExactly(
            "The screening of the left thigh on 03/04/2026 is more than 30 days old."
                + " A therapist screens again.");
  }

  @Test
  void a_change_outdates_it() {
    Screened changed = new Screened(1L, DAY, Side.LEFT, "The surgery was moved.", allNo());
    assertThat(judge(changed).current()).isFalse();
    assertThat(judge(changed).reasons()).singleElement().asString().contains("surgery was moved");
  }

  @Test
  void a_question_added_since_makes_it_incomplete() {
    Map<String, Given> answers = allNo();
    answers.remove("nerve_block");
    ScreeningStatus status = judge(new Screened(1L, DAY, Side.LEFT, null, answers));
    assertThat(status.current()).isFalse();
    assertThat(status.reasons()).singleElement().asString().contains("lacks an answer");
  }

  @Test
  void a_contraindication_blocks_even_if_somebody_accepted_it() {
    ScreeningStatus status = judge(screened(Side.LEFT, "clot_dvt", Answer.YES, true));
    assertThat(status.openContraindications()).extracting("key").containsExactly("clot_dvt");
    assertThat(status.current()).isTrue();
    assertThat(status.clear()).isFalse();
  }

  @Test
  void a_clearance_does_not_lift_what_nobody_can_lift() {
    ScreeningStatus status =
        home.of(
            Side.LEFT,
            List.of(screened(Side.LEFT, "clot_dvt", Answer.YES, false)),
            List.of(new Cleared("clot_dvt", null, null, DAY, null)));
    assertThat(status.openContraindications()).hasSize(1);
  }

  @Test
  void a_specialist_may_lift_an_implant_in_writing() {
    List<Screened> implant = List.of(screened(Side.LEFT, "implant_electronic", Answer.YES, false));
    assertThat(home.of(Side.LEFT, implant, List.of()).openContraindications()).hasSize(1);
    assertThat(
            home.of(
                    Side.LEFT,
                    implant,
                    List.of(new Cleared("implant_electronic", null, null, DAY, null)))
                .clear())
        .isTrue();
  }

  @Test
  void a_precaution_waits_for_its_acceptance() {
    ScreeningStatus open = judge(screened(Side.LEFT, "swelling_postop", Answer.YES, false));
    assertThat(open.unacceptedPrecautions()).extracting("key").containsExactly("swelling_postop");
    assertThat(open.reasons())
        .singleElement()
        .asString()
        .endsWith("A licensed PT accepts it with a reason.");
    assertThat(judge(screened(Side.LEFT, "swelling_postop", Answer.YES, true)).clear()).isTrue();
  }

  @Test
  void not_sure_counts_as_yes() {
    assertThat(judge(screened(Side.LEFT, "clot_dvt", Answer.NOT_SURE, false)).clear()).isFalse();
  }

  @Test
  void information_stands_against_nothing() {
    assertThat(judge(screened(Side.LEFT, "metal_implant_passive", Answer.YES, false)).clear())
        .isTrue();
  }

  @Test
  void a_hold_waits_for_a_clearance_of_that_region_side_and_time() {
    List<Screened> repair = List.of(screened(Side.LEFT, "repair_at_risk", Answer.YES, true));
    assertThat(home.of(Side.LEFT, repair, List.of()).openHolds()).hasSize(1);
    assertThat(home.of(Side.LEFT, repair, List.of()).reasons())
        .singleElement()
        .asString()
        .contains("Record the clearance: who (the surgeon), when and for what.");
    assertThat(clears(repair, "thigh", Side.LEFT, DAY, null)).isTrue();
    assertThat(clears(repair, "thigh", Side.LEFT, DAY, DAY)).isTrue();
    assertThat(clears(repair, null, null, DAY, null)).isTrue();
    assertThat(clears(repair, "shoulder", null, DAY, null)).isFalse();
    assertThat(clears(repair, "thigh", Side.RIGHT, DAY, null)).isFalse();
    assertThat(clears(repair, "thigh", Side.LEFT, DAY.plusDays(1), null)).isFalse();
    assertThat(clears(repair, "thigh", Side.LEFT, DAY.minusDays(9), DAY.minusDays(1))).isFalse();
  }

  @Test
  void a_clearance_for_one_side_does_not_clear_both() {
    List<Screened> repair = List.of(screened(Side.BOTH, "repair_at_risk", Answer.YES, false));
    Cleared left = new Cleared("repair_at_risk", "thigh", Side.LEFT, DAY, null);
    assertThat(home.of(Side.BOTH, repair, List.of(left)).openHolds()).hasSize(1);
  }

  @Test
  void a_clearance_for_one_side_clears_the_screening_of_that_side() {
    Screened left = screened(Side.LEFT, "repair_at_risk", Answer.YES, false);
    Cleared cleared = new Cleared("repair_at_risk", "thigh", Side.LEFT, DAY, null);
    assertThat(home.of(Side.BOTH, List.of(left, screened(Side.RIGHT)), List.of(cleared)).clear())
        .isTrue();
  }

  @Test
  void what_is_only_about_the_home_does_not_hold_up_the_clinic() {
    Screened children = screened(Side.LEFT, "children_access", Answer.YES, false);
    assertThat(judge(children).unacceptedPrecautions()).hasSize(1);
    assertThat(judgement(DAY, false).of(Side.LEFT, List.of(children), List.of()).clear()).isTrue();
  }

  @Test
  void everything_open_is_said_at_once() {
    Map<String, Given> answers = allNo();
    answers.put("clot_dvt", new Given(Answer.YES, null, false));
    answers.put("repair_at_risk", new Given(Answer.YES, null, false));
    answers.put("pregnancy", new Given(Answer.YES, "week 12", false));
    ScreeningStatus status =
        judgement(DAY.plusDays(90), true)
            .of(Side.LEFT, List.of(new Screened(1L, DAY, Side.LEFT, null, answers)), List.of());
    assertThat(status.reasons()).hasSize(4);
    assertThat(status.unacceptedPrecautions().get(0).note()).isEqualTo("week 12");
  }

  private boolean clears(
      List<Screened> screened, String region, Side side, LocalDate from, LocalDate until) {
    return home.of(
            Side.LEFT, screened, List.of(new Cleared("repair_at_risk", region, side, from, until)))
        .clear();
  }

  private ScreeningStatus judge(Screened screened) {
    return home.of(Side.LEFT, List.of(screened), List.of());
  }

  private Judgement judgement(LocalDate on, boolean home) {
    return new Judgement(questions.askedFor(thigh), thigh, home, on, 30);
  }

  private List<Screened> one() {
    return List.of(screened(Side.LEFT));
  }

  private Screened screened(Side side) {
    return new Screened(1L, DAY, side, null, allNo());
  }

  private Screened screened(Side side, String key, Answer answer, boolean accepted) {
    Map<String, Given> answers = allNo();
    assertThat(answers).containsKey(key);
    answers.put(key, new Given(answer, null, accepted));
    return new Screened(1L, DAY, side, null, answers);
  }

  private Map<String, Given> allNo() {
    Map<String, Given> answers = new HashMap<>();
    questions
        .askedFor(thigh)
        .forEach(question -> answers.put(question.key(), new Given(Answer.NO, null, false)));
    return answers;
  }
}
