package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The figures stand in the papers that each template names. */
@QuarkusTest
class TemplatesTest {
  @Inject Templates templates;
  @Inject Muscles muscles;

  @Test
  void offersAtLeastTwelvePublishedDosesEachWithItsSource() {
    assertThat(templates.all()).hasSizeGreaterThanOrEqualTo(12);
    assertThat(templates.all())
        .allSatisfy(
            template -> {
              assertThat(template.source()).isNotBlank();
              assertThat(template.values().values())
                  .allSatisfy(value -> assertThat(value.source()).isNotBlank());
            });
  }

  /** Stevens-Lapsley 2012 as tabled in Conley 2021. */
  @Test
  void theOneAfterKneeReplacementIsComplete() {
    Template template = templates.find("knee-replacement-early").orElseThrow();
    assertThat(template.complete()).isTrue();
    assertThat(template.dose().number(DoseField.ON_SECONDS)).isEqualByComparingTo("15");
    assertThat(template.dose().number(DoseField.OFF_SECONDS)).isEqualByComparingTo("45");
    assertThat(template.dose().number(DoseField.PULSE_WIDTH_US)).isEqualByComparingTo("250");
    assertThat(template.dose().whole(DoseField.SESSIONS_PER_DAY)).isEqualTo(2);
    assertThat(template.values().get(DoseField.DAYS_PER_WEEK).fromMemory()).isTrue();
    assertThat(template.values().get(DoseField.ON_SECONDS).fromMemory()).isFalse();
  }

  /** Nussbaum 2017, Table 7 prints ranges. */
  @Test
  void aRangeIsShownButNotChosen() {
    Template template = templates.find("acl-consensus").orElseThrow();
    assertThat(template.dose().has(DoseField.ON_SECONDS)).isFalse();
    assertThat(template.values().get(DoseField.ON_SECONDS).between()).isEqualTo("6 to 10");
    assertThat(template.blanks()).contains(DoseField.ON_SECONDS, DoseField.RAMP_UP_SECONDS);
  }

  @Test
  void aValueOutsideTheRangeCountsAsChanged() {
    Template template = templates.find("acl-consensus").orElseThrow();
    DoseValues inside = template.dose().with(DoseField.ON_SECONDS, new BigDecimal("8"));
    DoseValues outside = template.dose().with(DoseField.ON_SECONDS, new BigDecimal("12"));
    assertThat(template.differences(inside)).isEmpty();
    assertThat(template.differences(outside))
        .extracting(Template.Difference::field)
        .containsExactly("onSeconds");
  }

  @Test
  void burstsNeedNoPulseWidth() {
    Template template = templates.find("elbow-flexors").orElseThrow();
    assertThat(template.dose().frequencyKind()).isEqualTo(FrequencyKind.BURSTS);
    assertThat(template.blanks()).doesNotContain(DoseField.PULSE_WIDTH_US);
  }

  @Test
  void everyFaultOfTheFileIsNamed() {
    Templates.TemplateFile file =
        ConfigFiles.parse(
            "program-templates.yaml",
            """
            sources: { a: "A paper" }
            templates:
              - key: Wrong Key
                title: T
                muscle: no-such
                sources: [b]
                values: { on-second: { is: 1 }, weeks: { is: none }, off-seconds: {} }
            """,
            Templates.TemplateFile.class);
    assertThatThrownBy(() -> new Templates(file, muscles))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("“key”")
        .hasMessageContaining("no-such")
        .hasMessageContaining("“b”");
  }

  /** Published: 25 sessions (Gremeaux 2008), as printed. */
  @Test
  void hipReplacementGivesItsPrintedSessions() {
    DoseValues dose = templates.find("hip-replacement-low-frequency").orElseThrow().dose();
    assertThat(sessions(dose)).isEqualTo(25);
  }

  /** From the printed times: 180 in all (Feil 2011), 84 in all (Stevens-Lapsley 2012). */
  @Test
  void theOthersGiveWhatTheirTimesMultiplyTo() {
    for (Map.Entry<String, Integer> one :
        Map.of("acl-home-multipath", 180, "knee-replacement-early", 84).entrySet()) {
      assertThat(sessions(templates.find(one.getKey()).orElseThrow().dose()))
          .isEqualTo(one.getValue());
    }
  }

  private static int sessions(DoseValues dose) {
    return dose.whole(DoseField.SESSIONS_PER_DAY)
        * dose.whole(DoseField.DAYS_PER_WEEK)
        * dose.whole(DoseField.WEEKS);
  }
}
