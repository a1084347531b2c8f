package clinic.stimshelf.program;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.people.ScreeningStatus;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Everything that may stand against signing a program version, told at once. */
final class SignatureRules {

  private SignatureRules() {}

  /**
   * What is to be signed.
   *
   * @param on the day of the signature
   * @param first whether no version was signed before
   * @param latestIsDraft whether there is a draft to sign
   * @param screenings one for each placement
   */
  record Case(
      StaffView signer,
      LocalDate on,
      boolean reviewed,
      boolean first,
      boolean latestIsDraft,
      ProgramState state,
      boolean died,
      Content content,
      Outlook outlook,
      List<ScreeningStatus> screenings) {}

  static void check(Case one, Refusals refusals) {
    if (one.state() == ProgramState.STOPPED) {
      refusals.add(null, "This program was stopped.", "Write a new one.");
    } else if (one.state() == ProgramState.HELD) {
      ProgramState.refuseWhileHeld(null, refusals);
    } else if (!one.latestIsDraft()) {
      refusals.add(null, "This version is signed already.", "Write a new version to change it.");
    }
    if (one.died()) {
      refusals.add("patientId", "The patient has died.");
    }
    signer(one.signer(), one.on(), refusals);
    if (!one.reviewed()) {
      refusals.add(
          "reviewed",
          "“I reviewed these” is not ticked.",
          "Look at every value, its source and what follows from it, then tick it.");
    }
    Contents.complete(one.content(), refusals);
    start(one, refusals);
    due(one, refusals);
    one.outlook().faults().forEach(fault -> refusals.add(null, fault));
    Set<Reason> open = new LinkedHashSet<>();
    one.screenings().forEach(status -> open.addAll(status.why()));
    refusals.addAll(List.copyOf(open));
  }

  /** Only a licensed PT signs; a PTA treats within a signed program, a student's draft waits. */
  static void signer(StaffView signer, LocalDate on, Refusals refusals) {
    if (signer.mayLicensedPt(on)) {
      return;
    }
    if (signer.credential() == Credential.PT && !signer.licenseRuns(on)) {
      refusals.add(
          null,
          "Your license ended on " + Days.full(signer.licenseEndsOn()) + ".",
          "A manager enters the renewed license, or another PT signs.");
    } else if (signer.credential() == Credential.STUDENT_PT) {
      refusals.add(
          null, "A student’s draft needs the signature of a licensed PT.", "Ask one to co-sign.");
    } else if (signer.credential() == Credential.PTA) {
      refusals.add(
          null,
          "A PTA treats within a program; only a licensed PT signs one.",
          "Keep it as a draft and ask a PT to sign.");
    } else {
      refusals.add(null, "Only a licensed PT signs a program.", "Ask one to sign.");
    }
  }

  private static void start(Case one, Refusals refusals) {
    LocalDate start = one.content().startsOn();
    if (one.first() && start != null && start.isBefore(one.on())) {
      refusals.add(
          "startsOn",
          "The program would start on " + Days.full(start) + ", before it is signed.",
          "Let it start on the day of the signature or later.");
    }
    if (start != null && start.isAfter(one.on().plusYears(1))) {
      refusals.add(
          "startsOn",
          "The program would start on " + Days.full(start) + ", more than a year from now.",
          "Look at the year.");
    }
  }

  private static void due(Case one, Refusals refusals) {
    DueDay chosen = one.outlook().due(one.content().dueKind());
    if (chosen == null) {
      return;
    }
    if (chosen.day() == null) {
      refusals.add(
          "dueKind",
          DueWords.absence(chosen.absence()),
          "Book that appointment, or choose another due day.");
    } else if (chosen.day().isBefore(one.on())) {
      refusals.add(
          "dueKind",
          "The due day " + Days.full(chosen.day()) + " has passed.",
          "Choose another one, or let the program run longer.");
    }
  }
}
