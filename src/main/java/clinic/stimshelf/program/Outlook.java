package clinic.stimshelf.program;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.days.PadPlan;
import clinic.stimshelf.calc.days.SessionDays;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.days.WeekRhythm;
import clinic.stimshelf.calc.dose.CurrentDensity;
import clinic.stimshelf.calc.dose.Rhythm;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * What follows from a program's content: the session, its days, the due day, the packs. Whatever
 * cannot be worked out yet is {@code null} or empty, because a draft may hold blanks.
 *
 * @param session one session, or {@code null}
 * @param days the dated sessions, or {@code null}
 * @param due the three choices in their order; empty without dated sessions
 * @param nextAppointment on which further packs can be handed out, or {@code null}
 * @param pads a plan for each pad line; empty without dated sessions
 * @param density under the smallest pad at the limit, or {@code null} where no current is known
 * @param faults what kept something from being worked out, in words
 */
record Outlook(
    Session session,
    SessionDays days,
    List<DueDay> due,
    LocalDate nextAppointment,
    List<PadLinePlan> pads,
    CurrentDensity density,
    List<String> faults) {

  /**
   * One session.
   *
   * @param seconds its length
   */
  record Session(Rhythm rhythm, BigInteger contractions, BigDecimal seconds, double dutyPercent) {}

  /**
   * One pad line over the whole program.
   *
   * @param usesPerSet sessions that a set is planned to last
   * @param now packs that leave with the unit
   * @param later packs by the day they are owed on
   */
  record PadLinePlan(
      String code,
      String name,
      int perSession,
      int usesPerSet,
      PadPlan plan,
      int now,
      List<PadPlan.Due> later) {}

  /**
   * What surrounds a program at its location.
   *
   * @param today of the location
   * @param appointments of the patient, in any order
   * @param window open days after the last session in which an appointment counts as a return
   * @param spareSets handed out beyond the next appointment
   */
  record Surroundings(
      LocalDate today,
      OpenDays openDays,
      List<LocalDate> appointments,
      int window,
      int spareSets,
      List<Span<LocalDate>> pauses,
      Map<String, PadFact> padTypes) {}

  static Outlook of(Content content, Surroundings around) {
    List<String> faults = new ArrayList<>();
    Session session = session(content.dose(), faults);
    SessionDays days = days(content, around.pauses(), faults);
    if (days == null) {
      return new Outlook(
          session, null, List.of(), null, List.of(), density(content, around), faults);
    }
    List<DueDay> due;
    try {
      due = DueDay.choices(days, around.appointments(), around.openDays(), around.window());
    } catch (BadInput neverOpen) {
      faults.add(neverOpen.getMessage());
      due = List.of();
    }
    LocalDate next = nextAppointment(days, around);
    return new Outlook(
        session,
        days,
        due,
        next,
        pads(content, days, next, around),
        density(content, around),
        faults);
  }

  /** Every day on which some pad set is replaced, ascending, each once. */
  List<LocalDate> padChanges() {
    TreeSet<LocalDate> changes = new TreeSet<>();
    pads.forEach(line -> changes.addAll(line.plan().changes()));
    return List.copyOf(changes);
  }

  /** The choice of that kind, or {@code null} while none can be worked out. */
  DueDay due(DueDay.Kind kind) {
    return kind == null || due.isEmpty() ? null : due.get(kind.ordinal());
  }

  /** The day of that choice or, where it does not exist any more, the drop-off day. */
  DueDay dueOrDropOff(DueDay.Kind kind) {
    DueDay chosen = due(kind);
    return chosen == null || chosen.day() != null ? chosen : due(DueDay.Kind.DROP_OFF);
  }

  int packsNow() {
    return pads.stream().mapToInt(PadLinePlan::now).sum();
  }

  int packsLater() {
    return pads.stream().flatMap(line -> line.later().stream()).mapToInt(PadPlan.Due::packs).sum();
  }

  private static Session session(DoseValues dose, List<String> faults) {
    if (!dose.has(DoseField.ON_SECONDS) || !dose.has(DoseField.OFF_SECONDS)) {
      return null;
    }
    try {
      Rhythm rhythm =
          new Rhythm(
              dose.number(DoseField.ON_SECONDS),
              dose.number(DoseField.OFF_SECONDS),
              dose.numberOrZero(DoseField.RAMP_UP_SECONDS),
              dose.numberOrZero(DoseField.RAMP_DOWN_SECONDS),
              !Boolean.FALSE.equals(dose.yes(DoseField.RAMP_INSIDE_ON)),
              dose.sure(DoseField.DROP_LAST_REST));
      BigInteger contractions = null;
      if (dose.has(DoseField.CONTRACTIONS)) {
        contractions = BigInteger.valueOf(dose.whole(DoseField.CONTRACTIONS));
      } else if (dose.has(DoseField.MINUTES)) {
        contractions = rhythm.contractionsIn(dose.number(DoseField.MINUTES));
      }
      BigDecimal seconds =
          contractions == null ? null : DoseField.plain(rhythm.sessionSeconds(contractions));
      return new Session(rhythm, contractions, seconds, rhythm.dutyPercent());
    } catch (BadInput wrong) {
      faults.add(wrong.getMessage());
      return null;
    }
  }

  private static SessionDays days(
      Content content, List<Span<LocalDate>> pauses, List<String> faults) {
    DoseValues dose = content.dose();
    WeekRhythm rhythm;
    try {
      rhythm = content.rhythm();
      if (rhythm == null
          || content.startsOn() == null
          || !dose.has(DoseField.WEEKS)
          || !dose.has(DoseField.SESSIONS_PER_DAY)) {
        return null;
      }
      return SessionDays.of(
          content.startsOn(),
          dose.whole(DoseField.WEEKS),
          rhythm,
          dose.whole(DoseField.SESSIONS_PER_DAY),
          pauses);
    } catch (BadInput wrong) {
      faults.add(wrong.getMessage());
      return null;
    }
  }

  /** The first appointment after the unit was handed out, on an open day. */
  private static LocalDate nextAppointment(SessionDays days, Surroundings around) {
    LocalDate from = around.today().isAfter(days.start()) ? around.today() : days.start();
    return around.appointments().stream()
        .filter(day -> day.isAfter(from) && around.openDays().isOpen(day))
        .min(LocalDate::compareTo)
        .orElse(null);
  }

  /**
   * Without an appointment the pads reach for the first set and the spare ones: the whole course
   * never leaves at once.
   */
  private static List<PadLinePlan> pads(
      Content content, SessionDays days, LocalDate next, Surroundings around) {
    LocalDate from = around.today().isAfter(days.firstDay()) ? around.today() : days.firstDay();
    LocalDate reach = next == null ? from : next;
    List<PadLinePlan> plans = new ArrayList<>();
    for (PadLine line : content.pads()) {
      PadFact fact = around.padTypes().get(line.code());
      if (fact != null && line.perSession() > 0 && line.perSession() <= 100) {
        PadPlan plan =
            PadPlan.of(
                days,
                new clinic.stimshelf.calc.days.PadLine(
                    line.perSession(), fact.padsPerPack(), fact.usesPerSet(), fact.openDays()));
        plans.add(
            new PadLinePlan(
                line.code(),
                fact.name(),
                line.perSession(),
                fact.usesPerSet(),
                plan,
                plan.packsNow(reach, around.spareSets()),
                plan.packsLater(reach, around.spareSets())));
      }
    }
    return plans;
  }

  private static CurrentDensity density(Content content, Surroundings around) {
    DoseValues dose = content.dose();
    BigDecimal smallest =
        content.pads().stream()
            .map(line -> around.padTypes().get(line.code()))
            .filter(fact -> fact != null && fact.areaCm2() != null)
            .map(PadFact::areaCm2)
            .min(BigDecimal::compareTo)
            .orElse(null);
    if (smallest == null
        || dose.frequencyKind() != FrequencyKind.PULSES
        || !dose.has(DoseField.LIMIT_MA)
        || !dose.has(DoseField.PULSE_WIDTH_US)
        || !dose.has(DoseField.FREQUENCY_HZ)) {
      return null;
    }
    try {
      return CurrentDensity.of(
          dose.number(DoseField.LIMIT_MA).doubleValue(),
          dose.number(DoseField.PULSE_WIDTH_US).doubleValue(),
          dose.number(DoseField.FREQUENCY_HZ).doubleValue(),
          smallest.doubleValue());
    } catch (BadInput impossible) {
      return null;
    }
  }
}
