package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.Check;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * The day on which a unit is due back, always an open day of the location.
 *
 * <p>Sessions on the due day itself are taken to happen before the unit is handed in, so that only
 * those on later days are lost.
 *
 * @param kind which of the three choices this is
 * @param day the day, or null where this choice does not exist
 * @param absence why there is no day, or null where there is one
 * @param sessionsLost sessions planned after the day; 0 where there is no day
 */
public record DueDay(
    Kind kind, @Nullable LocalDate day, @Nullable Absence absence, int sessionsLost) {

  /** Open days after the last session's day within which an appointment still counts. */
  public static final int OPEN_DAYS_AFTER = 5;

  /** The three choices that a therapist has when signing. */
  public enum Kind {
    /** The last appointment after the start day and before the program ends. */
    LAST_APPOINTMENT_BEFORE_END,
    /** The first appointment from the last session's day to so many open days after it. */
    FIRST_APPOINTMENT_AFTER_LAST_SESSION,
    /** The first open day strictly after the last session's day, without an appointment. */
    DROP_OFF
  }

  /** Why a choice does not exist. */
  public enum Absence {
    /** No appointment on an open day lies after the start day and before the program ends. */
    NO_APPOINTMENT_BEFORE_END,
    /** No appointment on an open day lies in the open days from the last session's day on. */
    NO_APPOINTMENT_AFTER_LAST_SESSION
  }

  /** The day, where there is one. */
  public Optional<LocalDate> dayIfAny() {
    return Optional.ofNullable(day);
  }

  /** All three choices, in the order of {@link Kind}, with {@value #OPEN_DAYS_AFTER} open days. */
  public static List<DueDay> choices(
      SessionDays sessions, Collection<LocalDate> appointments, OpenDays openDays) {
    return choices(sessions, appointments, openDays, OPEN_DAYS_AFTER);
  }

  /**
   * All three choices, in the order of {@link Kind}.
   *
   * @param sessions the program's sessions
   * @param appointments days with an appointment of the patient, in any order; those on closed days
   *     do not count
   * @param openDays the location's
   * @param openDaysAfter how many open days after the last session's day an appointment may be, 0
   *     to 366
   */
  public static List<DueDay> choices(
      SessionDays sessions,
      Collection<LocalDate> appointments,
      OpenDays openDays,
      int openDaysAfter) {
    Check.within("openDaysAfter", openDaysAfter, 0, 366);
    TreeSet<LocalDate> open = new TreeSet<>();
    appointments.stream().filter(openDays::isOpen).forEach(open::add);
    return List.of(
        beforeEnd(sessions, open),
        afterLastSession(sessions, open, openDays, openDaysAfter),
        dropOff(sessions, openDays));
  }

  /** One of the three choices; arguments as in {@link #choices}. */
  public static DueDay of(
      Kind kind,
      SessionDays sessions,
      Collection<LocalDate> appointments,
      OpenDays openDays,
      int openDaysAfter) {
    return choices(sessions, appointments, openDays, openDaysAfter).get(kind.ordinal());
  }

  private static DueDay beforeEnd(SessionDays sessions, TreeSet<LocalDate> appointments) {
    LocalDate last = appointments.lower(sessions.endExclusive());
    return last != null && last.isAfter(sessions.start())
        ? new DueDay(Kind.LAST_APPOINTMENT_BEFORE_END, last, null, sessions.after(last))
        : absent(Kind.LAST_APPOINTMENT_BEFORE_END, Absence.NO_APPOINTMENT_BEFORE_END);
  }

  private static DueDay afterLastSession(
      SessionDays sessions, TreeSet<LocalDate> appointments, OpenDays openDays, int openDaysAfter) {
    LocalDate first = appointments.ceiling(sessions.lastDay());
    return first != null && !first.isAfter(openDays.plusOpenDays(sessions.lastDay(), openDaysAfter))
        ? new DueDay(Kind.FIRST_APPOINTMENT_AFTER_LAST_SESSION, first, null, 0)
        : absent(
            Kind.FIRST_APPOINTMENT_AFTER_LAST_SESSION, Absence.NO_APPOINTMENT_AFTER_LAST_SESSION);
  }

  private static DueDay dropOff(SessionDays sessions, OpenDays openDays) {
    return new DueDay(Kind.DROP_OFF, openDays.firstOpenAfter(sessions.lastDay()), null, 0);
  }

  private static DueDay absent(Kind kind, Absence absence) {
    return new DueDay(kind, null, absence, 0);
  }
}
