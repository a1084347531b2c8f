package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.dose.Course;
import clinic.stimshelf.calc.dose.Dose;
import clinic.stimshelf.calc.dose.PadUse;
import clinic.stimshelf.calc.dose.Rhythm;
import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Map;
import java.util.function.Supplier;

/** A home program's arithmetic. */
final class DoseQuestion {
  static final String EXAMPLE =
      """
      {"onSeconds": 10, "offSeconds": 50, "minutes": 15, "frequencyHz": 50, "sessionsPerDay": 1, \
      "daysPerWeek": 5, "weeks": 6, "padsPerSession": 2, "usesPerPad": 20, "padsPerPack": 4}""";

  private static final Bound A_WEEK = Bound.whole(1, 7);

  private DoseQuestion() {}

  /** Times in seconds; contractions, stimulation and pulses of one session. */
  record DoseAnswer(
      BigDecimal cycleSeconds,
      BigInteger contractions,
      BigDecimal sessionSeconds,
      double dutyPercent,
      BigDecimal stimulationSeconds,
      BigDecimal pulses,
      long sessions,
      BigInteger totalContractions,
      BigInteger padSets,
      BigInteger pads,
      BigInteger packs) {}

  static DoseAnswer answer(JsonNode body) {
    return Question.answer(body, DoseQuestion::ask, Map.of());
  }

  private static Supplier<DoseAnswer> ask(Fields in) {
    BigDecimal on = in.decimal("onSeconds", Bound.SPAN_ABOVE_0);
    BigDecimal off = in.decimal("offSeconds", Bound.SPAN);
    BigDecimal up = in.decimal("rampUpSeconds", Bound.SPAN, BigDecimal.ZERO);
    BigDecimal down = in.decimal("rampDownSeconds", Bound.SPAN, BigDecimal.ZERO);
    boolean inside = in.flag("rampInsideOn", true);
    boolean counted = in.has("contractions");
    if (counted == in.has("minutes")) {
      in.wrong("contractions", "and minutes: exactly one of the two must be there.");
    }
    int contractions = in.whole("contractions", Bound.COUNT_FROM_1, 1);
    BigDecimal minutes = in.decimal("minutes", Bound.AMOUNT_ABOVE_0, BigDecimal.ONE);
    boolean dropLastRest = in.flag("dropLastRest", false);
    double hertz = in.number("frequencyHz", Bound.AMOUNT_ABOVE_0);
    int aDay = in.whole("sessionsPerDay", Bound.COUNT_FROM_1);
    int aWeek = in.whole("daysPerWeek", A_WEEK);
    int weeks = in.whole("weeks", Bound.COUNT_FROM_1);
    int padsPerSession = in.whole("padsPerSession", Bound.COUNT_FROM_1);
    BigDecimal uses = in.decimal("usesPerPad", Bound.SPAN_ABOVE_0);
    int padsPerPack = in.whole("padsPerPack", Bound.COUNT_FROM_1);
    return () -> {
      Rhythm rhythm = new Rhythm(on, off, up, down, inside, dropLastRest);
      Course course = new Course(aDay, aWeek, weeks);
      PadUse pads = new PadUse(padsPerSession, uses, padsPerPack);
      return of(
          counted
              ? Dose.of(rhythm, contractions, hertz, course, pads)
              : Dose.ofMinutes(rhythm, minutes, hertz, course, pads));
    };
  }

  private static DoseAnswer of(Dose dose) {
    return new DoseAnswer(
        dose.cycleSeconds(),
        dose.contractions(),
        dose.sessionSeconds(),
        dose.dutyPercent(),
        dose.stimulationSeconds(),
        dose.pulses(),
        dose.sessions(),
        dose.totalContractions(),
        dose.padSets(),
        dose.pads(),
        dose.packs());
  }
}
