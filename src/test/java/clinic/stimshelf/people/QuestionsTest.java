package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.ConfigFiles;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuestionsTest {
  private final Questions questions = shipped();
  private final Muscles muscles = MusclesTest.shipped();

  /** Classes after FDA-1999 and IEC 60601-2-10; where the source was not re-read, [M]. */
  @ParameterizedTest
  @CsvSource({
    "pacemaker_demand, YES, thigh, contraindication", // FDA-1999
    "implant_electronic, YES, thigh, contraindication", // IEC (d)
    "skin_infected_inflamed, YES, thigh, contraindication", // FDA-1999
    "cancer_active, YES, thigh, contraindication", // FDA-1999
    "pads_front_neck, YES, shoulder, contraindication", // FDA-1999, IEC (h)
    "current_across_chest, YES, shoulder, contraindication", // FDA-1999, IEC (h)
    "driving_machines, YES, thigh, contraindication", // FDA-1999
    "diathermy_near, YES, thigh, contraindication", // IEC (e)
    "swelling_postop, YES, thigh, precaution", // common practice, no source
    "incision_staples_patch, YES, thigh, contraindication", // common practice, no source
    "incision_staples_patch, YES_BUT, thigh, precaution", // common practice, no source
    "nerve_block, YES, thigh, contraindication", // common practice, no source
    "external_fixator, YES, thigh, contraindication", // common practice, no source
    "electronics_worn, YES, thigh, hold", // common practice, no source
    "electronics_worn, YES_BUT, thigh, precaution", // common practice, no source
    "skin_broken_rash, YES, thigh, contraindication", // FDA-1999 [M]
    "skin_broken_rash, YES_BUT, thigh, precaution", // FDA-1999 [M]
    "pregnancy, YES, thigh, precaution", // FDA-1999 [M]
    "pregnancy, YES, lower-back, contraindication", // FDA-1999 [M]
    "pregnancy, YES, abdomen, contraindication", // FDA-1999 [M]
    "heart_problem, YES, thigh, precaution", // FDA-1999 [M]
    "heart_problem, YES, shoulder, contraindication", // FDA-1999 [M]
    "epilepsy, YES, lower-leg, precaution", // FDA-1999 [M]
    "epilepsy, YES, shoulder, contraindication", // FDA-1999 [M]
    "repair_at_risk, YES, thigh, hold", // FDA-1999 [M]
    "cannot_report, YES, thigh, hold", // home: common practice, no source
    "cannot_report, YES_BUT, thigh, precaution", // home: common practice, no source
    "metal_implant_passive, YES, thigh, information", // HNH-2010 [M]
    "heart_problem, NOT_SURE, thigh, precaution", // not sure counts as yes
    "clot_dvt, NOT_SURE, thigh, contraindication", // not sure counts as yes
  })
  void a_yes_does_at_home_what_its_class_says(
      String key, Answer answer, String region, String effect) {
    assertThat(questions.find(key).orElseThrow().effectOf(answer, muscles.region(region), true))
        .isEqualTo(Effect.of(effect));
  }

  @Test
  void in_the_clinic_the_rules_for_the_home_do_not_count() {
    BodyRegion thigh = muscles.region("thigh");
    assertThat(question("cannot_report").effectOf(Answer.YES, thigh, false))
        .isEqualTo(Effect.PRECAUTION);
    assertThat(question("children_access").effectOf(Answer.YES, thigh, false)).isNull();
    assertThat(question("children_access").effectOf(Answer.YES, thigh, true))
        .isEqualTo(Effect.PRECAUTION);
  }

  @Test
  void a_no_does_nothing() {
    assertThat(questions.all())
        .allSatisfy(
            question ->
                assertThat(question.effectOf(Answer.NO, muscles.region("abdomen"), true)).isNull());
  }

  @Test
  void what_is_about_another_region_is_not_asked() {
    assertThat(keys("thigh"))
        .contains("pacemaker_demand", "clot_dvt", "skin_broken_rash")
        .doesNotContain("pads_front_neck", "genital_area", "uterus_menstrual");
    assertThat(keys("shoulder")).contains("pads_front_neck", "current_across_chest");
    assertThat(keys("lower-back"))
        .contains("uterus_menstrual", "genital_area")
        .doesNotContain("circulation_poor", "external_fixator");
  }

  @Test
  void every_question_names_its_source_and_speaks_spanish_where_the_patient_is_asked() {
    assertThat(questions.all()).hasSizeGreaterThan(35);
    assertThat(questions.askedOfPatient(null))
        .hasSizeGreaterThan(20)
        .allSatisfy(question -> assertThat(question.patientWords("es")).startsWith("¿"));
  }

  @Test
  void names_everything_that_is_wrong_at_once() {
    assertThatThrownBy(
            () ->
                parse(
                    """
                    questions:
                      - { key: Bad Key, ask: A, effect: hold, region: moon, source: s }
                      - { key: twice, ask: A, patient: B, effect: precaution, region: any, \
                    alternative: { answer: maybe, effect: hold }, cleared-by: x }
                      - { key: twice, ask: A, effect: precaution, region: any, source: s }
                    """))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageStartingWith("config/screening.yaml: ")
        .hasMessageContaining("Question “Bad Key” needs a key")
        .hasMessageContaining("Question “Bad Key” needs a region: any, chest")
        .hasMessageContaining("Question “Bad Key” is a hold")
        .hasMessageContaining("Question “twice” needs “source”")
        .hasMessageContaining("Question “twice” needs the patient's words in both languages")
        .hasMessageContaining("Question “twice” needs an alternative")
        .hasMessageContaining("Question “twice” stands there twice.");
  }

  @Test
  void an_unknown_effect_is_named_with_its_line() {
    assertThatThrownBy(() -> parse("questions:\n  - { key: a, effect: maybe }\n"))
        .hasMessageStartingWith("config/screening.yaml, line 2 (questions › entry 1 › effect)")
        .hasMessageContaining("information, precaution, hold, contraindication");
  }

  private Question question(String key) {
    return questions.find(key).orElseThrow();
  }

  private List<String> keys(String region) {
    return questions.askedFor(muscles.region(region)).stream().map(Question::key).toList();
  }

  static Questions shipped() {
    return parse(MusclesTest.packed("config/screening.yaml"));
  }

  private static Questions parse(String text) {
    return new Questions(ConfigFiles.parse(Questions.FILE, text, Questions.Sheet.class));
  }
}
