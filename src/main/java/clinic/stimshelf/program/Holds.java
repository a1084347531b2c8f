package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.ScreeningStatus;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * Stops what a patient does at home, at once and until they were screened again. Anybody may stop;
 * only a licensed PT lets it go on.
 */
@ApplicationScoped
public class Holds {
  @Inject Programs programs;
  @Inject ProgramRows rows;
  @Inject ProgramViews views;
  @Inject Screenings screenings;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject Clock clock;
  @Inject Event<ProgramChanged> changed;

  /**
   * Stops the program and every other one of the patient that goes on; what was screened no longer
   * holds.
   *
   * @param words more about it; needed where the reason is another one
   */
  @Transactional
  ProgramView hold(Long id, HoldReason reason, String words, EventTime at) {
    Program program = programs.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = programs.eventOf(program, at, refusals);
    if (program.state != ProgramState.SIGNED) {
      refusals.add(null, "Only a signed program that still runs can be stopped for now.");
    } else if (program.hold() != null) {
      refusals.add(null, "The program is stopped already: " + program.hold().say() + ".");
    }
    if (reason == null) {
      refusals.add("reason", "What happened?", "Choose one of the reasons.");
    }
    if (words != null && words.length() > 500) {
      refusals.add("words", "The words may have at most 500 characters.");
    } else if (reason == HoldReason.OTHER && (words == null || words.isBlank())) {
      refusals.add("words", "Say in a few words what happened.");
    }
    refusals.throwIfAny();
    LocalDate today = locations.today(program.locationId);
    for (Program one :
        rows.list(
            "patientId = ?1 and state = ?2 order by id", program.patientId, ProgramState.SIGNED)) {
      boolean goesOn = !one.signed().dueOn.isBefore(today) || one.id.equals(id);
      if (goesOn && one.hold() == null) {
        hold(one, reason, Writing.blankToNull(words), happened);
      }
    }
    screenings.outdate(
        program.patientId,
        null,
        "Stopped for "
            + reason.words()
            + (reason == HoldReason.OTHER ? ": " + shortly(words) : "")
            + ".");
    return views.view(program, program.latest());
  }

  private void hold(Program program, HoldReason reason, String words, Happened happened) {
    Hold hold = new Hold();
    hold.program = program;
    hold.standingProgramId = program.id;
    hold.reason = reason;
    hold.words = words;
    hold.heldAt = happened.at();
    hold.recordedAt = clock.instant();
    hold.heldBy = signedIn.staffId();
    program.holds.add(hold);
    rows.flush();
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("reason", reason.word());
    after.put("words", words);
    trail.record(
        Programs.subject(program), program.locationId, "stopped for now", happened, null, after);
    changed.fire(new ProgramChanged(program.id));
  }

  private static String shortly(String words) {
    String plain = words.strip();
    return plain.length() <= 400 ? plain : plain.substring(0, 400);
  }

  /**
   * Lets the program go on after a new screening that is clear. The days that were lost move
   * sessions, pads and due day, as a pause does.
   */
  @Transactional
  ProgramView release(Long id, String words, EventTime at) {
    Program program = programs.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = programs.eventOf(program, at, refusals);
    ZoneId zone = locations.zone(program.locationId);
    LocalDate day = LocalDate.ofInstant(happened.at(), zone);
    Hold hold = program.hold();
    if (hold == null) {
      refusals.add(null, "The program is not stopped for now.");
      refusals.throwIfAny();
    }
    if (happened.at().isBefore(hold.heldAt)) {
      refusals.add("happenedAt", "It was stopped after that.", "Enter when it may go on.");
    }
    StaffView person = signedIn.staff();
    if (!person.mayLicensedPt(day)) {
      refusals.add(null, "Only a licensed PT lets it go on.", "Ask one to screen and decide.");
    }
    if (words != null && words.length() > 500) {
      refusals.add("words", "The words may have at most 500 characters.");
    }
    List<ScreeningStatus> screened = programs.screened(program, program.signed(), day);
    Set<Reason> open = new LinkedHashSet<>();
    screened.forEach(status -> open.addAll(status.why()));
    refusals.addAll(List.copyOf(open));
    refusals.throwIfAny();
    hold.standingProgramId = null;
    hold.releasedAt = happened.at();
    hold.releasedBy = person.id();
    hold.releaseWords = Writing.blankToNull(words);
    hold.screeningId =
        screened.stream()
            .map(ScreeningStatus::screeningId)
            .filter(Objects::nonNull)
            .findFirst()
            .orElse(null);
    catchUp(program, LocalDate.ofInstant(hold.heldAt, zone), day, hold.say());
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("after", hold.say());
    after.put("words", hold.releaseWords);
    programs.rederive(program, "goes on after screening", after);
    return views.view(program, program.latest());
  }

  /** The days without sessions, less those on which a pause was entered already. */
  private void catchUp(Program program, LocalDate held, LocalDate goesOn, String why) {
    ProgramVersion version = program.signed();
    LocalDate from = held.isBefore(version.startsOn) ? version.startsOn : held;
    if (from.isAfter(version.lastSessionOn) || !from.isBefore(goesOn)) {
      return;
    }
    List<Span<LocalDate>> paused = program.pauses.stream().map(Pause::span).toList();
    for (Span<LocalDate> lost : Span.of(from, goesOn).without(paused)) {
      Pause pause = new Pause();
      pause.program = program;
      pause.fromDay = lost.start();
      pause.toDay = lost.end().minusDays(1);
      pause.reason = cut("Stopped: " + why);
      pause.enteredAt = clock.instant();
      program.pauses.add(pause);
    }
  }

  private static String cut(String text) {
    return text.length() <= 500 ? text : text.substring(0, 500);
  }
}
