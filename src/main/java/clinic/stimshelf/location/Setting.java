package clinic.stimshelf.location;

import java.math.BigDecimal;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;

/**
 * What a location may choose, with what is proposed and allowed. The proposals are common practice
 * without a source unless the line says otherwise.
 */
public enum Setting {
  SERVICE_LEVEL(
      "0.98", Kind.NUMBER, "0.5", "0.9999", "Chance that pads last until the next delivery"),
  REVIEW_DAYS("7", Kind.WHOLE, "1", "90", "Days between two looks at what to order"),
  EXPIRY_CERTAINTY(
      "0.90", Kind.NUMBER, "0.5", "0.9999", "Certainty that what is ordered is used before expiry"),
  PAD_RELIABILITY(
      "0.80",
      Kind.NUMBER,
      "0.5",
      "0.9999",
      "Share of pad sets that should last as long as planned"),
  SURENESS("0.90", Kind.NUMBER, "0.5", "0.9999", "How sure a promised unit must be by its day"),
  ADHERENCE_WITHOUT_HISTORY(
      "0.80", Kind.NUMBER, "0.05", "1", "Share of home sessions expected where none is logged yet"),
  NO_SHOW_WITHOUT_HISTORY(
      "0.10", Kind.NUMBER, "0", "0.9", "Share of appointments expected to be missed"),
  SEALED_PACKS_RETURN(
      "no", Kind.YES_NO, null, null, "Sealed packs from a home go back to the cupboard"),
  SPARE_SETS("1", Kind.WHOLE, "0", "5", "Spare pad sets handed out beyond the next appointment"),
  APPOINTMENT_WINDOW_DAYS(
      "5",
      Kind.WHOLE,
      "0",
      "30",
      "Open days after the last session for a return at an appointment"),
  SCREENING_STALE_DAYS("30", Kind.WHOLE, "1", "365", "Days after which a screening is asked again"),
  ORDER_REQUIRED(
      "no", Kind.YES_NO, null, null, "Lending and extending need a current prescriber's order"),
  TEST_INTERVAL_MONTHS("12", Kind.WHOLE, "1", "36", "Months between two safety tests"),
  TURNAROUND_DAYS("1", Kind.NUMBER, "0", "30", "Days from check in until a unit can go out again"),
  TREATMENT_SETUP_MINUTES("5", Kind.WHOLE, "0", "60", "Minutes to set up before a treatment"),
  TREATMENT_WIPE_MINUTES("5", Kind.WHOLE, "0", "60", "Minutes to wipe after a treatment"),
  CHARGE_MINUTES("60", Kind.WHOLE, "0", "600", "Minutes until a unit that is to charge can treat"),
  BODY_FLUID_HOLD_DAYS(
      "0", Kind.WHOLE, "0", "60", "Days a kit is held after blood or another body fluid"),
  PESTS_HOLD_DAYS("14", Kind.WHOLE, "0", "60", "Days a kit is held after pests were seen"),
  CONTACT_PRECAUTIONS_HOLD_DAYS(
      "0", Kind.WHOLE, "0", "60", "Days a kit is held after use under contact precautions"),
  TREATMENT_REPLACES_HOME_SESSION(
      "no", Kind.YES_NO, null, null, "A treatment in the clinic replaces that day's home session"),
  PATIENTS_AT_ONCE("2", Kind.WHOLE, "1", "12", "Patients a therapist sees at the same time"),
  GIVEN_UP_DAYS(
      "14",
      Kind.WHOLE,
      "3",
      "120",
      "Days with no session told of and no visit until a program may be given up"),
  GIVEN_UP_SHARE(
      "0.25",
      Kind.NUMBER,
      "0",
      "1",
      "Share of the known sessions of those days below which it may be given up as well"),
  LIMB_SYMMETRY_PERCENT(
      // 90 % is the criterion of Nawasreh 2017; each clinic chooses its own.
      "90", Kind.NUMBER, "50", "120", "Limb symmetry this clinic looks for, in percent"),
  LIMB_SYMMETRY_MET_AT(
      // Published criteria differ: at least 90 % (Nawasreh 2017), above 90 % (Gokeler 2017).
      "yes", Kind.YES_NO, null, null, "Exactly that symmetry counts as reached"),
  REMINDER_TREATMENT_WORDS(
      "no", Kind.YES_NO, null, null, "Messages may name the unit and the exercise"),
  INCIDENT_REPORT_DAYS(
      // US outpatient treatment facilities: 10 work days, 21 CFR 803; from memory.
      "10",
      Kind.WHOLE,
      "1",
      "90",
      "Work days after hearing of an incident until a report may be due"),
  END_DECISION_DAYS(
      "7", Kind.WHOLE, "1", "60", "Days before a program's end from which it is to be decided"),
  END_TO_MANAGER_DAYS(
      "2", Kind.WHOLE, "0", "60", "Days before the end from which a manager hears of it undecided"),
  DAYS_WITHOUT_VISIT(
      "14", Kind.WHOLE, "1", "180", "Days of a loan without a visit until the patient is called"),
  REMINDER_TIME("09:00", Kind.TIME, null, null, "Time of day at which messages go out"),
  QUIET_FROM("20:00", Kind.TIME, null, null, "From this time on nobody is written to"),
  QUIET_UNTIL("08:00", Kind.TIME, null, null, "Until this time nobody is written to"),
  AFTER_HOURS_WORDS_SPANISH(
      "", Kind.TEXT, null, null, "What to do after hours, for patients who read Spanish"),
  EMERGENCY_WORDS_SPANISH(
      "", Kind.TEXT, null, null, "What to do in an emergency, for patients who read Spanish"),
  CURRENCY("USD", Kind.TEXT, null, null, "Currency of prices and deposits");

  private enum Kind {
    WHOLE,
    NUMBER,
    YES_NO,
    TIME,
    TEXT
  }

  private final String proposed;
  private final Kind kind;
  private final String least;
  private final String most;
  private final String label;

  Setting(String proposed, Kind kind, String least, String most, String label) {
    this.proposed = proposed;
    this.kind = kind;
    this.least = least;
    this.most = most;
    this.label = label;
  }

  public String proposed() {
    return proposed;
  }

  public String label() {
    return label;
  }

  /** Name in the database, in files and in forms. */
  public String key() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }

  /** What is allowed, in words. */
  public String allowed() {
    return switch (kind) {
      case WHOLE -> "a whole number from " + least + " to " + most;
      case NUMBER -> "a number from " + least + " to " + most;
      case YES_NO -> "yes or no";
      case TIME -> "a time such as 09:00";
      case TEXT -> "a short text";
    };
  }

  public boolean allows(String text) {
    try {
      return switch (kind) {
        case WHOLE -> {
          int number = Integer.parseInt(text);
          yield number >= Integer.parseInt(least) && number <= Integer.parseInt(most);
        }
        case NUMBER -> {
          BigDecimal number = new BigDecimal(text);
          yield number.compareTo(new BigDecimal(least)) >= 0
              && number.compareTo(new BigDecimal(most)) <= 0;
        }
        case YES_NO -> text.equals("yes") || text.equals("no");
        case TIME -> text.equals(LocalTime.parse(text).toString());
        case TEXT -> !text.isBlank() && text.length() <= 500;
      };
    } catch (NumberFormatException | DateTimeParseException unreadable) {
      return false;
    }
  }

  static Setting byKey(String key) {
    for (Setting setting : values()) {
      if (setting.key().equals(key)) {
        return setting;
      }
    }
    return null;
  }
}
