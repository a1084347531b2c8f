package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.SessionDays;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The sessions that were planned on each day, over all signed versions of a program. A later
 * version counts from its start day or, where it kept the start of the one before (an extension),
 * from the day it was signed. Nothing is planned from the day on which the program was stopped.
 */
final class Planned {

  /**
   * @param from first day for which these sessions count
   */
  private record Stretch(LocalDate from, SessionDays days) {}

  private final List<Stretch> stretches;
  private final LocalDate stopped;
  private final Hold hold;
  private final ZoneId zone;

  private Planned(List<Stretch> stretches, LocalDate stopped, Hold hold, ZoneId zone) {
    this.stretches = stretches;
    this.stopped = stopped;
    this.hold = hold;
    this.zone = zone;
  }

  static Planned of(Program program, ZoneId zone) {
    List<Stretch> stretches = new ArrayList<>();
    for (ProgramVersion version :
        program.versions.stream()
            .filter(one -> one.signedAt != null)
            .sorted(Comparator.comparingInt(one -> one.number))
            .toList()) {
      Content content = Writing.read(version);
      SessionDays days =
          SessionDays.of(
              version.startsOn,
              version.weeks,
              content.rhythm(),
              version.sessionsPerDay,
              program.pauses.stream().map(Pause::span).toList());
      LocalDate signed = LocalDate.ofInstant(version.signedAt, zone);
      LocalDate from =
          stretches.isEmpty() || version.startsOn.isAfter(signed) ? version.startsOn : signed;
      stretches.removeIf(one -> !one.from().isBefore(from));
      stretches.add(new Stretch(from, days));
    }
    return new Planned(
        stretches,
        program.stoppedAt == null ? null : LocalDate.ofInstant(program.stoppedAt, zone),
        program.hold(),
        zone);
  }

  boolean any() {
    return !stretches.isEmpty();
  }

  /** First day of the program, or {@code null} while nothing is signed. */
  LocalDate start() {
    return any() ? stretches.get(0).days().start() : null;
  }

  /** Last day with a session, or {@code null} while nothing is signed. */
  LocalDate last() {
    return any() ? stretches.get(stretches.size() - 1).days().lastDay() : null;
  }

  /** Sessions planned on the day. */
  int on(LocalDate day) {
    if (stopped != null && !day.isBefore(stopped)) {
      return 0;
    }
    if (hold != null && hold.silences(day, zone)) {
      return 0;
    }
    SessionDays found = null;
    for (Stretch stretch : stretches) {
      if (!day.isBefore(stretch.from())) {
        found = stretch.days();
      }
    }
    return found == null ? 0 : found.on(day);
  }

  /** Sessions planned from one day to another, both included. */
  int between(LocalDate from, LocalDate to) {
    int planned = 0;
    for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
      planned += on(day);
    }
    return planned;
  }

  /** The last so many days up to and on a day on which sessions were planned, latest first. */
  List<LocalDate> lastDays(LocalDate upTo, int most) {
    List<LocalDate> days = new ArrayList<>();
    LocalDate start = start();
    for (LocalDate day = upTo;
        start != null && !day.isBefore(start) && days.size() < most;
        day = day.minusDays(1)) {
      if (on(day) > 0) {
        days.add(day);
      }
    }
    return days;
  }
}
