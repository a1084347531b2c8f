package clinic.stimshelf.calc.dose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import java.math.BigDecimal;
import java.math.BigInteger;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DoseTest {

  private static final Course ONE = new Course(1, 1, 1);
  private static final PadUse PADS = new PadUse(2, 20, 4);

  /**
   * Session counts printed in Gremeaux 2008 (Arch Phys Med Rehabil 89:2265), JOSPT 2003;33:719 and,
   * for Petterson 2009, in Peng 2021 (Front Med 8:779019) Table 1; the last two are our arithmetic
   * on the rhythms of Stevens-Lapsley 2012 and Feil 2011.
   */
  @ParameterizedTest
  @CsvSource({"1,5,5,25", "1,2,4,8", "1,3,4,12", "1,2,6,12", "2,7,6,84", "3,5,12,180"})
  void sessionsAreADayTimesDaysTimesWeeks(int aDay, int days, int weeks, long sessions) {
    assertThat(new Course(aDay, days, weeks).sessions()).isEqualTo(sessions);
  }

  /** 15 contractions of 15 s on, 45 s off at 50 Hz: the rhythm of Stevens-Lapsley 2012. */
  @Test
  void quarterHourAfterKneeReplacement() {
    Dose dose = Dose.of(rhythm(15, 45, false), 15, 50, new Course(2, 7, 6), PADS);
    assertThat(dose.cycleSeconds()).isEqualByComparingTo("60");
    assertThat(dose.sessionSeconds()).isEqualByComparingTo("900");
    assertThat(dose.dutyPercent()).isEqualTo(25);
    assertThat(dose.stimulationSeconds()).isEqualByComparingTo("225");
    assertThat(dose.pulses()).isEqualByComparingTo("11250");
    assertThat(dose.totalContractions()).isEqualTo(1260);
    assertThat(dose.padSets()).isEqualTo(BigInteger.valueOf(5));
    assertThat(dose.pads()).isEqualTo(10);
    assertThat(dose.packs()).isEqualTo(3);
    assertThat(Dose.of(rhythm(15, 45, true), 15, 50, ONE, PADS).sessionSeconds())
        .isEqualByComparingTo("855");
  }

  /** Minutes to contractions for the rhythms of Feil 2011 and Moran 2019. */
  @ParameterizedTest
  @CsvSource({"20,5,10,80,33.333333333333333", "20,10,20,40,33.3333333333333", "10,10,10,30,50"})
  void minutesGiveWholeContractions(String minutes, int on, int off, long expected, double duty) {
    Dose dose = Dose.ofMinutes(rhythm(on, off, false), new BigDecimal(minutes), 50, ONE, PADS);
    assertThat(dose.contractions()).isEqualTo(expected);
    assertThat(dose.dutyPercent()).isCloseTo(duty, within(1e-12));
  }

  @Test
  void theFloorIsExactWhereBinaryFractionsWouldLoseAContraction() {
    // 0.15 min = 9 s; in doubles 0.1 + 0.2 is a little over 0.3, so that 9 / 0.3 falls below 30.
    Rhythm tenths = Rhythm.of(0.1, 0.2, 0, 0, true, false);
    assertThat(tenths.contractionsIn(new BigDecimal("0.15"))).isEqualTo(30);
    assertThat(tenths.cycleSeconds()).isEqualByComparingTo("0.3");
  }

  @Test
  void aDroppedLastRestLetsOneMoreContractionIn() {
    assertThat(rhythm(10, 50, false).contractionsIn(new BigDecimal("9.5"))).isEqualTo(9);
    assertThat(rhythm(10, 50, true).contractionsIn(new BigDecimal("9.5"))).isEqualTo(10);
  }

  @Test
  void rampsOutsideTheOnTimeLengthenTheCycleAndNotTheDuty() {
    Dose dose = Dose.of(Rhythm.of(10, 30, 2, 1, false, false), 10, 50, ONE, PADS);
    assertThat(dose.cycleSeconds()).isEqualByComparingTo("43");
    assertThat(dose.dutyPercent()).isEqualTo(25);
    assertThat(dose.stimulationSeconds()).isEqualByComparingTo("100");
  }

  @Test
  void refusesWhatCannotBeAndNamesIt() {
    refuses("onSeconds", () -> Rhythm.of(0, 10, 0, 0, true, false));
    refuses("onSeconds", () -> Rhythm.of(Double.NaN, 10, 0, 0, true, false));
    refuses("onSeconds", () -> Rhythm.of(100_001, 10, 0, 0, true, false));
    refuses("offSeconds", () -> Rhythm.of(1, -1, 0, 0, true, false));
    refuses("rampUpSeconds", () -> Rhythm.of(3, 1, 2, 1.5, true, false));
    refuses("minutes", () -> rhythm(10, 50, false).contractionsIn(new BigDecimal("0.9")));
    refuses("minutes", () -> rhythm(10, 50, true).contractionsIn(BigDecimal.ZERO));
    refuses("minutes", () -> rhythm(1, 0, false).contractionsIn(new BigDecimal("1e999999999")));
    refuses("offSeconds", () -> Rhythm.of(BigDecimal.ONE, new BigDecimal("1e-999999999")));
    refuses("daysPerWeek", () -> new Course(1, 8, 1));
    refuses("frequencyHz", () -> Dose.of(rhythm(1, 1, false), 1, Double.NaN, ONE, PADS));
    refuses("contractions", () -> Dose.of(rhythm(1, 1, false), 0, 50, ONE, PADS));
    refuses("usesPerPad", () -> new PadUse(2, 0, 4));
  }

  @Test
  void theLargestProgramIsExact() {
    int most = 1_000_000_000;
    Dose dose =
        Dose.of(rhythm(1, 1, false), most, 1, new Course(most, 7, most), new PadUse(most, 1, 1));
    assertThat(dose.sessions()).isEqualTo(7_000_000_000_000_000_000L);
    assertThat(dose.totalContractions()).isEqualTo(new BigInteger("7" + "0".repeat(27)));
    assertThat(dose.packs()).isEqualTo(new BigInteger("7" + "0".repeat(27)));
  }

  @Property(tries = 300)
  void contractionsFillTheMinutesAndOneMoreWouldNot(
      @ForAll @IntRange(min = 1, max = 300) int onTenths,
      @ForAll @IntRange(max = 600) int offTenths,
      @ForAll @IntRange(min = 1, max = 240) int quarterMinutes,
      @ForAll boolean dropLastRest) {
    Rhythm rhythm = Rhythm.of(onTenths / 10.0, offTenths / 10.0, 0, 0, true, dropLastRest);
    BigDecimal minutes = BigDecimal.valueOf(quarterMinutes).multiply(new BigDecimal("0.25"));
    BigDecimal seconds = minutes.multiply(BigDecimal.valueOf(60));
    if (rhythm.sessionSeconds(BigInteger.ONE).compareTo(seconds) > 0) {
      refuses("minutes", () -> rhythm.contractionsIn(minutes));
      return;
    }
    BigInteger n = rhythm.contractionsIn(minutes);
    assertThat(rhythm.sessionSeconds(n)).isLessThanOrEqualTo(seconds);
    assertThat(rhythm.sessionSeconds(n.add(BigInteger.ONE))).isGreaterThan(seconds);
  }

  private static Rhythm rhythm(int on, int off, boolean dropLastRest) {
    return Rhythm.of(on, off, 0, 0, true, dropLastRest);
  }

  private static void refuses(String field, Runnable call) {
    assertThatThrownBy(call::run)
        .isInstanceOf(BadInput.class)
        .hasMessageContaining(field.equals("rampUpSeconds") ? "ramps" : "")
        .extracting(e -> ((BadInput) e).field())
        .isEqualTo(field);
  }
}
