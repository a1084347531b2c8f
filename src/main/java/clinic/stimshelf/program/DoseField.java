package clinic.stimshelf.program;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;

/**
 * The values of a dose, each with its words and what is allowed. The bounds keep typing errors out;
 * they are no advice.
 */
enum DoseField {
  FREQUENCY_HZ(
      "frequencyHz",
      "Frequency",
      "Hz",
      "0.1",
      "2500",
      v -> v.frequencyHz,
      number((v, n) -> v.frequencyHz = n)),
  FREQUENCY_KIND(
      "frequencyKind",
      "Frequency counts",
      Type.FREQUENCY,
      v -> v.frequencyKind,
      (v, o) -> v.frequencyKind = (FrequencyKind) o),
  PULSE_WIDTH_US(
      "pulseWidthUs",
      "Pulse width",
      "µs",
      "1",
      "5000",
      v -> v.pulseWidthUs,
      number((v, n) -> v.pulseWidthUs = n)),
  ON_SECONDS(
      "onSeconds",
      "On",
      "seconds",
      "0.1",
      "600",
      v -> v.onSeconds,
      number((v, n) -> v.onSeconds = n)),
  OFF_SECONDS(
      "offSeconds",
      "Off",
      "seconds",
      "0",
      "3600",
      v -> v.offSeconds,
      number((v, n) -> v.offSeconds = n)),
  RAMP_UP_SECONDS(
      "rampUpSeconds",
      "Ramp up",
      "seconds",
      "0",
      "60",
      v -> v.rampUpSeconds,
      number((v, n) -> v.rampUpSeconds = n)),
  RAMP_DOWN_SECONDS(
      "rampDownSeconds",
      "Ramp down",
      "seconds",
      "0",
      "60",
      v -> v.rampDownSeconds,
      number((v, n) -> v.rampDownSeconds = n)),
  RAMP_INSIDE_ON(
      "rampInsideOn",
      "Ramps lie inside the on time",
      Type.YES_NO,
      v -> v.rampInsideOn,
      (v, o) -> v.rampInsideOn = (Boolean) o),
  DROP_LAST_REST(
      "dropLastRest",
      "Ends with the last contraction",
      Type.YES_NO,
      v -> v.dropLastRest,
      (v, o) -> v.dropLastRest = (Boolean) o),
  CONTRACTIONS(
      "contractions",
      "Contractions",
      1,
      10_000,
      v -> v.contractions,
      whole((v, n) -> v.contractions = n)),
  MINUTES(
      "minutes",
      "or minutes",
      "minutes",
      "0.1",
      "720",
      v -> v.minutes,
      number((v, n) -> v.minutes = n)),
  SESSIONS_PER_DAY(
      "sessionsPerDay",
      "Sessions a day",
      1,
      24,
      v -> v.sessionsPerDay,
      whole((v, n) -> v.sessionsPerDay = n)),
  DAYS_PER_WEEK(
      "daysPerWeek", "Days a week", 1, 7, v -> v.daysPerWeek, whole((v, n) -> v.daysPerWeek = n)),
  WEEKS("weeks", "Weeks", 1, 104, v -> v.weeks, whole((v, n) -> v.weeks = n)),
  INTENSITY(
      "intensity",
      "Intensity in words",
      Type.TEXT,
      v -> v.intensity,
      (v, o) -> v.intensity = (String) o),
  LIMIT_MA(
      "limitMa", "Not above", "mA", "0.1", "200", v -> v.limitMa, number((v, n) -> v.limitMa = n));

  private enum Type {
    NUMBER,
    WHOLE,
    YES_NO,
    FREQUENCY,
    TEXT
  }

  private static final int LONGEST_TEXT = 500;

  private final String key;
  private final String words;
  private final String unit;
  private final Type type;
  private final BigDecimal least;
  private final BigDecimal most;
  private final Function<ProgramVersion, Object> getter;
  private final BiConsumer<ProgramVersion, Object> setter;

  DoseField(
      String key,
      String words,
      String unit,
      String least,
      String most,
      Function<ProgramVersion, Object> getter,
      BiConsumer<ProgramVersion, Object> setter) {
    this.key = key;
    this.words = words;
    this.unit = unit;
    this.type = Type.NUMBER;
    this.least = new BigDecimal(least);
    this.most = new BigDecimal(most);
    this.getter = getter;
    this.setter = setter;
  }

  DoseField(
      String key,
      String words,
      int least,
      int most,
      Function<ProgramVersion, Object> getter,
      BiConsumer<ProgramVersion, Object> setter) {
    this.key = key;
    this.words = words;
    this.unit = "";
    this.type = Type.WHOLE;
    this.least = BigDecimal.valueOf(least);
    this.most = BigDecimal.valueOf(most);
    this.getter = getter;
    this.setter = setter;
  }

  DoseField(
      String key,
      String words,
      Type type,
      Function<ProgramVersion, Object> getter,
      BiConsumer<ProgramVersion, Object> setter) {
    this.key = key;
    this.words = words;
    this.unit = "";
    this.type = type;
    this.least = BigDecimal.ZERO;
    this.most = BigDecimal.ZERO;
    this.getter = getter;
    this.setter = setter;
  }

  /** Name in JSON and forms. */
  String key() {
    return key;
  }

  /** Name in the templates' file. */
  String fileKey() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What pages call it, with its unit. */
  String words() {
    return unit.isEmpty() || words.contains(unit) ? words : words + ", " + unit;
  }

  /** What is allowed, as the end of a sentence. */
  String allowed() {
    return switch (type) {
      case NUMBER -> "a number from " + least.toPlainString() + " to " + most.toPlainString();
      case WHOLE -> "a whole number from " + least + " to " + most;
      case YES_NO -> "yes or no";
      case FREQUENCY -> "pulses or bursts";
      case TEXT -> "a text of at most " + LONGEST_TEXT + " characters";
    };
  }

  /** A sentence for a value that does not do. */
  String refusal() {
    return words + " must be " + allowed() + ".";
  }

  boolean allows(Object value) {
    return switch (type) {
      case NUMBER, WHOLE -> {
        BigDecimal number =
            value instanceof BigDecimal exact ? exact : new BigDecimal(value.toString());
        yield number.compareTo(least) >= 0 && number.compareTo(most) <= 0 && number.scale() <= 4;
      }
      case TEXT -> value instanceof String text && !text.isBlank() && text.length() <= LONGEST_TEXT;
      default -> true;
    };
  }

  /**
   * Reads what a person or a file wrote.
   *
   * @throws IllegalArgumentException saying what is allowed
   */
  Object parse(String text) {
    try {
      Object value =
          switch (type) {
            case NUMBER -> plain(new BigDecimal(text));
            case WHOLE -> Integer.valueOf(text);
            case YES_NO -> yesNo(text);
            case FREQUENCY -> FrequencyKind.valueOf(text.toUpperCase(Locale.ROOT));
            case TEXT -> text.strip();
          };
      if (allows(value)) {
        return value;
      }
    } catch (IllegalArgumentException unreadable) {
      // said below, together with what is allowed
    }
    throw new IllegalArgumentException(refusal());
  }

  /** As it is typed into a form. */
  String typed(Object value) {
    if (value instanceof BigDecimal number) {
      return plain(number).toPlainString();
    }
    if (value instanceof FrequencyKind kind) {
      return kind.word();
    }
    if (value instanceof Boolean yes) {
      return yes ? "yes" : "no";
    }
    return String.valueOf(value);
  }

  Object get(ProgramVersion version) {
    Object value = getter.apply(version);
    return value instanceof BigDecimal number ? plain(number) : value;
  }

  void set(ProgramVersion version, Object value) {
    setter.accept(version, value);
  }

  static Optional<DoseField> byFileKey(String fileKey) {
    return Arrays.stream(values()).filter(field -> field.fileKey().equals(fileKey)).findFirst();
  }

  static List<DoseField> all() {
    return List.of(values());
  }

  /** Without trailing zeros and without an exponent. */
  static BigDecimal plain(BigDecimal number) {
    BigDecimal stripped = number.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }

  private static Boolean yesNo(String text) {
    return switch (text.strip().toLowerCase(Locale.ROOT)) {
      case "yes", "true" -> true;
      case "no", "false" -> false;
      default -> throw new IllegalArgumentException(text);
    };
  }

  private static BiConsumer<ProgramVersion, Object> number(
      BiConsumer<ProgramVersion, BigDecimal> setter) {
    return (version, value) -> setter.accept(version, (BigDecimal) value);
  }

  private static BiConsumer<ProgramVersion, Object> whole(
      BiConsumer<ProgramVersion, Integer> setter) {
    return (version, value) -> setter.accept(version, (Integer) value);
  }
}
