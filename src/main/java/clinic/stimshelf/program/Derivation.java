package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.calc.days.PadPlan;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;

/** Fixes in a signed version what follows from it: sessions, due day, packs. */
@ApplicationScoped
class Derivation {
  @Inject Surveys surveys;

  /** What is fixed, for the trail. */
  record Fixed(
      int version,
      LocalDate startsOn,
      Integer sessions,
      LocalDate lastSessionOn,
      LocalDate dueOn,
      String dueKind,
      Integer sessionsLost,
      List<String> packs) {

    static Fixed of(ProgramVersion version) {
      return new Fixed(
          version.number,
          version.startsOn,
          version.sessions,
          version.lastSessionOn,
          version.dueOn,
          version.dueKind == null ? null : DueWords.word(version.dueKind),
          version.sessionsLost,
          version.packs.stream()
              .map(
                  pack ->
                      pack.packs
                          + " x "
                          + pack.padCode
                          + (pack.onDay == null ? " now" : " on " + pack.onDay))
              .toList());
    }
  }

  /** What was entered, beside what follows from it now. */
  record Because(Object entered, Fixed follows) {}

  /**
   * The chosen due day, or the drop-off day where that choice exists no more. An open day of the
   * location in any case.
   */
  void fix(Program program, ProgramVersion version) {
    fix(version, surveys.ofVersion(program, version));
  }

  static void fix(ProgramVersion version, Outlook outlook) {
    version.sessions = outlook.days().count();
    version.lastSessionOn = outlook.days().lastDay();
    version.endsBefore = outlook.days().endExclusive();
    version.nextAppointmentOn = outlook.nextAppointment();
    DueDay due = outlook.dueOrDropOff(version.dueKind);
    if (due != null) {
      version.dueOn = due.day();
      version.sessionsLost = due.sessionsLost();
    }
    version.padChanges =
        outlook.padChanges().stream().map(LocalDate::toString).collect(Collectors.joining(","));
    version.packs.clear();
    for (Outlook.PadLinePlan line : outlook.pads()) {
      if (line.now() > 0) {
        add(version, line.code(), null, line.now());
      }
      for (PadPlan.Due later : line.later()) {
        add(version, line.code(), later.day(), later.packs());
      }
    }
  }

  /** Whether the due day that would be fixed now is another one than stands. */
  boolean dueMoved(Program program, ProgramVersion version) {
    DueDay due = surveys.ofVersion(program, version).dueOrDropOff(version.dueKind);
    return due != null && !due.day().equals(version.dueOn);
  }

  private static void add(ProgramVersion version, String code, LocalDate on, int packs) {
    PackRow row = new PackRow();
    row.version = version;
    row.padCode = code;
    row.onDay = on;
    row.packs = packs;
    version.packs.add(row);
  }
}
