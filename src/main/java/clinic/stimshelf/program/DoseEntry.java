package clinic.stimshelf.program;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;

/**
 * The values of a dose as files and scripts give them; {@code null} where one is blank. Units and
 * bounds are those of the what-if call for a dose.
 *
 * @param frequencyHz pulses or bursts a second, as {@code frequencyKind} says
 * @param pulseWidthUs of one phase, in microseconds
 * @param limitMa current that must not be passed, in milliamperes
 */
public record DoseEntry(
    BigDecimal onSeconds,
    BigDecimal offSeconds,
    BigDecimal rampUpSeconds,
    BigDecimal rampDownSeconds,
    Boolean rampInsideOn,
    Boolean dropLastRest,
    Integer contractions,
    BigDecimal minutes,
    BigDecimal frequencyHz,
    FrequencyKind frequencyKind,
    BigDecimal pulseWidthUs,
    String intensity,
    BigDecimal limitMa,
    Integer sessionsPerDay,
    Integer daysPerWeek,
    Integer weeks) {

  DoseValues values() {
    Map<DoseField, Object> dose = new EnumMap<>(DoseField.class);
    dose.put(DoseField.ON_SECONDS, onSeconds);
    dose.put(DoseField.OFF_SECONDS, offSeconds);
    dose.put(DoseField.RAMP_UP_SECONDS, rampUpSeconds);
    dose.put(DoseField.RAMP_DOWN_SECONDS, rampDownSeconds);
    dose.put(DoseField.RAMP_INSIDE_ON, rampInsideOn);
    dose.put(DoseField.DROP_LAST_REST, dropLastRest);
    dose.put(DoseField.CONTRACTIONS, contractions);
    dose.put(DoseField.MINUTES, minutes);
    dose.put(DoseField.FREQUENCY_HZ, frequencyHz);
    dose.put(DoseField.FREQUENCY_KIND, frequencyKind);
    dose.put(DoseField.PULSE_WIDTH_US, pulseWidthUs);
    dose.put(DoseField.INTENSITY, Writing.blankToNull(intensity));
    dose.put(DoseField.LIMIT_MA, limitMa);
    dose.put(DoseField.SESSIONS_PER_DAY, sessionsPerDay);
    dose.put(DoseField.DAYS_PER_WEEK, daysPerWeek);
    dose.put(DoseField.WEEKS, weeks);
    return DoseValues.of(dose);
  }
}
