package clinic.stimshelf.program;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.Orders;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.ScreeningStatus;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * Home programs: what is written, signed, changed and ended. Owns their rules.
 *
 * <p>Writing never touches the version in force: a new draft stands beside it until a licensed PT
 * signs it. Only then what follows from the program changes, and {@link ProgramChanged} is fired in
 * the same transaction.
 */
@ApplicationScoped
public class Programs {
  private static final Set<Credential> WRITERS =
      Set.of(Credential.PT, Credential.PTA, Credential.STUDENT_PT);
  private static final Set<Credential> TREATING = Set.of(Credential.PT, Credential.PTA);

  @Inject ProgramRows rows;
  @Inject ProgramViews views;
  @Inject Surveys surveys;
  @Inject Derivation derivation;
  @Inject Templates templates;
  @Inject PadFacts padFacts;
  @Inject Muscles muscles;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject Screenings screenings;
  @Inject Orders orders;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject Event<ProgramChanged> changed;

  /** A program in its newest version. */
  @Transactional
  public ProgramView byId(Long id) {
    Program program = seen(id);
    return views.view(program, program.latest());
  }

  /**
   * A program in the version with that number.
   *
   * @throws NotFound if there is no such version
   */
  @Transactional
  public ProgramView byId(Long id, int number) {
    Program program = seen(id);
    if (number < 1 || number > program.latestNumber) {
      throw new NotFound("This program has no version " + number + ".");
    }
    return views.view(program, program.version(number));
  }

  /** The version in force of a program, or nothing while it is a draft. */
  @Transactional
  public Optional<SignedProgram> signed(Long programId) {
    Program program = row(programId);
    LocalDate today = locations.today(program.locationId);
    return Optional.ofNullable(program.signed())
        .map(version -> views.signed(program, version, today));
  }

  /** The versions in force of several programs; drafts are left out. */
  @Transactional
  public Map<Long, SignedProgram> signed(Collection<Long> programIds) {
    if (programIds.isEmpty()) {
      return Map.of();
    }
    Map<Long, SignedProgram> signed = new HashMap<>();
    for (Program program : rows.list("id in ?1 and signedNumber is not null", programIds)) {
      signed.put(
          program.id, views.signed(program, program.signed(), locations.today(program.locationId)));
    }
    return signed;
  }

  /**
   * More weeks: the version in force is written anew and signed at once by the person who asks.
   *
   * @param weeks how many more
   * @param dueWord how the due day is chosen; {@code null} or blank keeps the choice
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public ProgramView extend(Long id, int weeks, String dueWord, String reason, EventTime at) {
    return extend(id, weeks, dueWord, reason, true, at);
  }

  /** The same, where the PT still has to say that they reviewed it. */
  @Transactional
  ProgramView extend(
      Long id, int weeks, String dueWord, String reason, boolean reviewed, EventTime at) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    if (program.signedNumber == null) {
      refusals.add(null, "The program is not signed.", "A licensed PT signs it first.");
    }
    if (!(weeks >= 1 && weeks <= 52)) {
      refusals.add("weeks", "More weeks must be a whole number from 1 to 52, not " + weeks + ".");
    }
    DueDay.Kind kind = program.signedNumber == null ? null : program.signed().dueKind;
    if (dueWord != null && !dueWord.isBlank()) {
      try {
        kind = DueWords.kind(dueWord);
      } catch (IllegalArgumentException unknown) {
        refusals.add("dueKind", unknown.getMessage());
      }
    }
    Happened happened = eventOf(program, at, refusals);
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(program.locationId));
    orders.requireRunning(program.patientId, program.locationId, day, refusals);
    refusals.throwIfAny();
    Content longer =
        Writing.read(program.signed()).with(DoseField.WEEKS, program.signed().weeks + weeks);
    rewrite(id, null, longer.withDue(kind), reason);
    return sign(id, null, reviewed, kind, at);
  }

  /** What is fixed about a program, signed or not, for entering what took place with it. */
  @Transactional
  public ProgramFacts facts(Long id) {
    Program program = row(id);
    ProgramVersion version = program.signedNumber == null ? program.latest() : program.signed();
    return new ProgramFacts(
        program.id,
        program.patientId,
        program.locationId,
        version.number,
        version.dueKind == null ? "drop-off" : DueWords.word(version.dueKind));
  }

  /** A patient's programs, newest first. */
  @Transactional
  public List<ProgramView> ofPatient(Long patientId) {
    return rows.list("patientId = ?1 order by id desc", patientId).stream()
        .filter(program -> signedIn.mayActAt(program.locationId))
        .map(program -> views.view(program, program.latest()))
        .toList();
  }

  /**
   * Writes a new program as a draft.
   *
   * @param locationId {@code null} for the patient's own
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  ProgramView draft(Long patientId, Long locationId, Content content) {
    PatientView patient = patients.byId(patientId);
    Long place = locationId == null ? patient.locationId() : locationId;
    signedIn.requireLocation(place);
    Refusals refusals = new Refusals();
    if (patient.diedOn() != null) {
      refusals.add("patientId", "The patient has died.");
    }
    Map<String, PadFact> padTypes = padFacts.planned(place);
    mayWrite(refusals);
    checkContent(content, padTypes, refusals);
    refusals.throwIfAny();
    Program program = new Program();
    program.patientId = patientId;
    program.locationId = place;
    program.therapistId = signedIn.staff().id();
    program.state = ProgramState.DRAFT;
    program.madeAt = clock.instant();
    write(program, content, padTypes, null);
    rows.persistAndFlush(program);
    trail.record(subject(program), place, "drafted", times.now(), null, content);
    return views.view(program, program.latest());
  }

  /** Writes a new program and, where it is wished, signs it; refused as a whole. */
  @Transactional
  ProgramView write(Long patientId, Content content, boolean sign, boolean reviewed) {
    ProgramView made = draft(patientId, null, content);
    return sign ? sign(made.id(), made.version(), reviewed, null, EventTime.NOW) : made;
  }

  /** Writes a new version and, where it is wished, signs it; refused as a whole. */
  @Transactional
  ProgramView rewrite(
      Long id, Integer ifMatch, Content content, String reason, boolean sign, boolean reviewed) {
    ProgramView made = rewrite(id, ifMatch, content, reason);
    return sign ? sign(id, made.version(), reviewed, null, EventTime.NOW) : made;
  }

  /**
   * Writes a new draft version. A version in force stays in force until the draft is signed.
   *
   * @param ifMatch number of the version it was written from; {@code null} for whatever stands
   * @param reason why it is changed; needed once a version was signed
   * @throws clinic.stimshelf.web.Stale if somebody wrote another version meanwhile
   */
  @Transactional
  ProgramView rewrite(Long id, Integer ifMatch, Content content, String reason) {
    Program program = locked(id);
    IfMatch.require(ifMatch, program.latestNumber, "This program");
    Refusals refusals = new Refusals();
    Map<String, PadFact> padTypes = padFacts.planned(program.locationId);
    mayWrite(refusals);
    notStopped(program, refusals);
    checkContent(content, padTypes, refusals);
    if (program.signedNumber != null && (reason == null || reason.isBlank())) {
      refusals.add("reason", "A signed program is changed for a reason.", "Say why.");
    }
    refusals.throwIfAny();
    ProgramVersion before = program.latest();
    Content old = Writing.read(before);
    if (before.state == VersionState.DRAFT) {
      before.state = VersionState.SET_ASIDE;
    }
    write(program, content, padTypes, reason);
    rows.flush();
    trail.record(subject(program), program.locationId, "rewritten", times.now(), old, content);
    return views.view(program, program.latest());
  }

  /**
   * Signs the newest version. It comes into force, fixes due day and packs, and needs its setting
   * confirmed on the unit anew.
   *
   * @param dueKind the choice of due day; {@code null} for the one that was written
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  ProgramView sign(Long id, Integer ifMatch, boolean reviewed, DueDay.Kind dueKind, EventTime at) {
    Program program = locked(id);
    IfMatch.require(ifMatch, program.latestNumber, "This program");
    Refusals refusals = new Refusals();
    ZoneId zone = locations.zone(program.locationId);
    Happened happened = times.of(at.happenedAt(), at.lateReason(), zone, refusals);
    LocalDate day = LocalDate.ofInstant(happened.at(), zone);
    ProgramVersion version = program.latest();
    if (dueKind != null && version.state == VersionState.DRAFT) {
      version.dueKind = dueKind;
    }
    StaffView signer = signedIn.staff();
    List<ScreeningStatus> screened = screened(program, version, day);
    SignatureRules.check(
        new SignatureRules.Case(
            signer,
            day,
            reviewed,
            program.signedNumber == null,
            version.state == VersionState.DRAFT,
            program.stateOn(locations.today(program.locationId)),
            patients.byId(program.patientId).diedOn() != null,
            Writing.read(version),
            surveys.ofVersion(program, version),
            screened),
        refusals);
    refusals.throwIfAny();
    if (program.signedNumber != null) {
      program.signed().state = VersionState.REPLACED;
    }
    version.state = VersionState.SIGNED;
    version.reviewed = true;
    version.signedAt = happened.at();
    version.signedBy = signer.id();
    version.cosigned = !signer.id().equals(version.draftedBy);
    version.screeningId =
        screened.stream()
            .map(ScreeningStatus::screeningId)
            .filter(Objects::nonNull)
            .findFirst()
            .orElse(null);
    program.signedNumber = version.number;
    program.state = ProgramState.SIGNED;
    program.therapistId = signer.id();
    derivation.fix(program, version);
    rows.flush();
    trail.record(
        subject(program),
        program.locationId,
        "signed",
        happened,
        null,
        Derivation.Fixed.of(version));
    changed.fire(new ProgramChanged(program.id));
    return views.view(program, version);
  }

  /** Records that the patient used the unit under supervision for the first time. */
  @Transactional
  public ProgramView firstSession(Long id, String words, EventTime at) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    Happened happened = eventOf(program, at, refusals);
    treating(happened, program, refusals);
    notStopped(program, refusals);
    notHeld(program, refusals);
    if (program.signedNumber == null) {
      refusals.add(null, "The program is not signed.", "A licensed PT signs it first.");
    }
    if (program.firstSessionAt != null) {
      refusals.add(null, "A first supervised session is on record already.");
    }
    if (words != null && words.length() > 500) {
      refusals.add("words", "The words may have at most 500 characters.");
    }
    refusals.throwIfAny();
    program.firstSessionAt = happened.at();
    program.firstSessionBy = signedIn.staffId();
    program.firstSessionWords = Writing.blankToNull(words);
    trail.record(
        subject(program),
        program.locationId,
        "first session",
        happened,
        null,
        Map.of("words", String.valueOf(program.firstSessionWords)));
    changed.fire(new ProgramChanged(program.id));
    return views.view(program, program.latest());
  }

  /**
   * Records that a unit was looked at and holds the setting of the version in force.
   *
   * @param matches whether the person says that it matches
   */
  @Transactional
  public ProgramView confirmSetting(Long id, String unitTag, boolean matches, EventTime at) {
    Program program = locked(id);
    UnitView unit = shelf.byTag(unitTag);
    Refusals refusals = new Refusals();
    Happened happened = eventOf(program, at, refusals);
    treating(happened, program, refusals);
    notStopped(program, refusals);
    notHeld(program, refusals);
    if (program.signedNumber == null) {
      refusals.add(null, "The program is not signed.", "A licensed PT signs it first.");
    }
    if (!matches) {
      refusals.add(
          "matches",
          "The unit’s setting is not said to match the signed version.",
          "Set the unit, compare every value, then confirm.");
    }
    if (program.signedNumber != null
        && unit.channels() < Writing.read(program.signed()).channels()) {
      refusals.add(
          "unitTag",
          unit.tag()
              + " has "
              + unit.channels()
              + " channels; the program takes "
              + Writing.read(program.signed()).channels()
              + ".",
          "Take a unit with enough channels.");
    }
    refusals.throwIfAny();
    SettingConfirmed row = new SettingConfirmed();
    row.program = program;
    row.versionNumber = program.signedNumber;
    row.unitId = unit.id();
    row.unitTag = unit.tag();
    row.settingText = program.signed().settingText;
    row.confirmedAt = happened.at();
    row.confirmedBy = signedIn.staffId();
    program.settings.add(row);
    rows.flush();
    trail.record(
        subject(program),
        program.locationId,
        "setting confirmed",
        happened,
        null,
        Map.of("unit", row.unitTag, "version", row.versionNumber, "setting", row.settingText));
    changed.fire(new ProgramChanged(program.id));
    return views.view(program, program.latest());
  }

  /** Whether that unit was confirmed to hold the setting of the version in force. */
  @Transactional
  public boolean settingConfirmed(Long programId, Long unitId) {
    Program program = row(programId);
    return program.signedNumber != null
        && program.settings.stream()
            .anyMatch(
                one -> one.versionNumber == program.signedNumber && one.unitId.equals(unitId));
  }

  /**
   * Lets the program stand still, for instance while the patient travels; what follows from it
   * shifts.
   *
   * @param from first day without sessions
   * @param to last day without sessions
   */
  @Transactional
  public ProgramView pause(Long id, LocalDate from, LocalDate to, String reason) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    treating(times.now(), program, refusals);
    PauseRules.check(program, from, to, reason, refusals);
    refusals.throwIfAny();
    Pause pause = new Pause();
    pause.program = program;
    pause.fromDay = from;
    pause.toDay = to;
    pause.reason = reason.strip();
    pause.enteredAt = clock.instant();
    program.pauses.add(pause);
    rederive(program, "paused", pause.view());
    return views.view(program, program.signed());
  }

  /**
   * Ends a pause before its last day.
   *
   * @param from the first day with sessions again
   */
  @Transactional
  public ProgramView resume(Long id, LocalDate from) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    treating(times.now(), program, refusals);
    Pause pause =
        program.pauses.stream()
            .filter(one -> from != null && !from.isBefore(one.fromDay) && !from.isAfter(one.toDay))
            .findFirst()
            .orElse(null);
    if (from == null) {
      refusals.add("from", "On which day do sessions go on?");
    } else if (pause == null) {
      refusals.add("from", "No pause covers that day.", "Name a day within the pause.");
    }
    refusals.throwIfAny();
    if (from.equals(pause.fromDay)) {
      program.pauses.remove(pause);
    } else {
      pause.toDay = from.minusDays(1);
    }
    rederive(program, "resumed", Map.of("from", from));
    return views.view(program, program.signed());
  }

  /**
   * Ends the program before its time. A draft that was never signed is thrown away by it.
   *
   * @param abandoned whether the patient gave it up, rather than somebody decided on its end
   */
  @Transactional
  public ProgramView stop(Long id, String reason, boolean abandoned, EventTime at) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    Happened happened = eventOf(program, at, refusals);
    notStopped(program, refusals);
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      refusals.add("reason", "Say in at most 500 characters why the program ends.");
    }
    if (abandoned && program.signedNumber == null) {
      refusals.add(
          "abandoned", "A draft cannot be abandoned: it never began.", "Throw the draft away.");
    }
    refusals.throwIfAny();
    ProgramState before = program.state;
    program.state = ProgramState.STOPPED;
    program.stoppedAt = happened.at();
    program.stopReason = reason.strip();
    program.abandoned = abandoned;
    Hold hold = program.hold();
    if (hold != null) {
      hold.standingProgramId = null;
      hold.releasedAt = happened.at();
      hold.releaseWords = "the program was ended";
    }
    if (program.latest().state == VersionState.DRAFT) {
      program.latest().state = VersionState.SET_ASIDE;
    }
    trail.record(
        subject(program),
        program.locationId,
        abandoned ? "ended as abandoned" : "stopped",
        happened,
        Map.of("state", before.word()),
        Map.of("state", program.state.word(), "reason", program.stopReason));
    changed.fire(new ProgramChanged(program.id));
    return views.view(program, program.latest());
  }

  /**
   * Works out anew what follows from a patient's programs that go on, because their appointments
   * changed.
   */
  @Transactional
  public void appointmentsChanged(Long patientId) {
    for (Program program :
        rows.list("patientId = ?1 and state = ?2", patientId, ProgramState.SIGNED)) {
      if (!program.signed().dueOn.isBefore(locations.today(program.locationId))) {
        rederive(program, "appointments changed", null);
      }
    }
  }

  /**
   * Hands a program over to a colleague at its location, who is then asked instead.
   *
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public ProgramView handOver(Long id, Long therapistId) {
    Program program = locked(id);
    Refusals refusals = new Refusals();
    notStopped(program, refusals);
    if (therapistId == null
        || staff.therapistsAt(program.locationId).stream()
            .noneMatch(one -> one.id().equals(therapistId))) {
      refusals.add("therapistId", "Nobody with this number treats at the program's location.");
    } else if (therapistId.equals(program.therapistId)) {
      refusals.add("therapistId", "The program is theirs already.");
    }
    refusals.throwIfAny();
    Long before = program.therapistId;
    program.therapistId = therapistId;
    trail.record(
        subject(program),
        program.locationId,
        "handed over",
        times.now(),
        Map.of("therapist", String.valueOf(before)),
        Map.of("therapist", String.valueOf(therapistId)));
    return views.view(program, program.latest());
  }

  void rederive(Program program, String action, Object after) {
    ProgramVersion version = program.signed();
    Derivation.Fixed before = Derivation.Fixed.of(version);
    derivation.fix(program, version);
    rows.flush();
    Derivation.Fixed now = Derivation.Fixed.of(version);
    if (after != null || !before.equals(now)) {
      trail.record(
          subject(program),
          program.locationId,
          action,
          times.now(),
          before,
          after == null ? now : new Derivation.Because(after, now));
      changed.fire(new ProgramChanged(program.id));
    }
  }

  Program row(Long id) {
    Program program = id == null ? null : rows.findById(id);
    if (program == null) {
      throw new NotFound("There is no such program.");
    }
    return program;
  }

  Program seen(Long id) {
    Program program = row(id);
    signedIn.requireLocation(program.locationId);
    return program;
  }

  static Subject subject(Program program) {
    return Subject.of("program", program.id);
  }

  Program locked(Long id) {
    Program program = id == null ? null : rows.findById(id, LockModeType.PESSIMISTIC_WRITE);
    if (program == null) {
      throw new NotFound("There is no such program.");
    }
    signedIn.requireLocation(program.locationId);
    return program;
  }

  private void write(
      Program program, Content content, Map<String, PadFact> padTypes, String reason) {
    ProgramVersion version = new ProgramVersion();
    version.program = program;
    version.number = ++program.latestNumber;
    version.state = VersionState.DRAFT;
    version.draftedBy = signedIn.staffId();
    version.draftedAt = clock.instant();
    version.changeReason = Writing.blankToNull(reason);
    Writing.write(content, padTypes, version);
    program.versions.add(version);
  }

  private void checkContent(Content content, Map<String, PadFact> padTypes, Refusals refusals) {
    if (content.template() != null && templates.find(content.template()).isEmpty()) {
      refusals.add(
          "template",
          "There is no template “" + content.template() + "”.",
          "Choose one of the list, or none.");
    }
    Contents.check(content, muscle -> muscles.find(muscle).isPresent(), padTypes, refusals);
  }

  private void mayWrite(Refusals refusals) {
    if (!WRITERS.contains(signedIn.staff().credential())) {
      refusals.add(
          null,
          "A program is written by a physical therapist, an assistant or a student.",
          "Ask one of them.");
    }
  }

  void treating(Happened happened, Program program, Refusals refusals) {
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(program.locationId));
    StaffView person = signedIn.staff();
    if (!TREATING.contains(person.credential())) {
      refusals.add(null, "This is done by a PT or a PTA.", "Ask one of them.");
    } else if (!person.licenseRuns(day)) {
      refusals.add(null, "Your license has ended.", "A manager enters the renewed license.");
    }
  }

  Happened eventOf(Program program, EventTime at, Refusals refusals) {
    return times.of(at.happenedAt(), at.lateReason(), locations.zone(program.locationId), refusals);
  }

  private static void notHeld(Program program, Refusals refusals) {
    if (program.hold() != null) {
      ProgramState.refuseWhileHeld(null, refusals);
    }
  }

  private static void notStopped(Program program, Refusals refusals) {
    if (program.state == ProgramState.STOPPED) {
      refusals.add(null, "This program was stopped.", "Write a new one.");
    }
  }

  List<ScreeningStatus> screened(Program program, ProgramVersion version, LocalDate day) {
    List<ScreeningStatus> screened = new ArrayList<>();
    for (PlacementRow placement : version.placements) {
      if (placement.side != null) {
        screened.add(
            screenings.status(program.patientId, placement.muscle, placement.side.word(), day));
      }
    }
    return screened;
  }
}
