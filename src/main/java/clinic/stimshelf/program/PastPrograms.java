package clinic.stimshelf.program;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.Refusals;
import io.quarkus.hibernate.orm.panache.PanacheQuery;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import org.hibernate.jpa.HibernateHints;

/**
 * Takes over programs and sessions that took place before the clinic kept them here. What had to
 * stand when a program was signed (screening, license, review) is not asked for again.
 */
@ApplicationScoped
public class PastPrograms {
  @Inject ProgramRows rows;
  @Inject SessionLogRows logs;
  @Inject PlaceFacts places;
  @Inject Muscles muscles;
  @Inject Templates templates;
  @Inject JustEntered justEntered;
  @Inject Trail trail;
  @Inject Clock clock;

  /**
   * Enters a program, signed or still a draft. A known {@code ref} changes nothing.
   *
   * @return the number of the new or the known program
   * @throws clinic.stimshelf.web.Refusal with everything that is wrong in it
   */
  @Transactional
  public Long enterProgram(PastProgram past) {
    Long known = justEntered.find("program", past.ref());
    if (known == null && past.ref() != null) {
      known =
          unflushed(rows.find("ref", past.ref())).stream().findFirst().map(p -> p.id).orElse(null);
    }
    if (known != null) {
      return known;
    }
    Content content = content(past);
    Map<String, PadFact> padTypes = places.padTypes();
    Refusals refusals = new Refusals();
    check(past, content, padTypes, refusals);
    refusals.throwIfAny();
    Program program = new Program();
    program.ref = past.ref();
    program.patientId = past.patientId();
    program.locationId = past.locationId();
    program.therapistId = past.therapistId();
    boolean signed = past.signedAt() != null;
    program.state =
        past.stoppedAt() != null
            ? ProgramState.STOPPED
            : signed ? ProgramState.SIGNED : ProgramState.DRAFT;
    program.latestNumber = 1;
    program.signedNumber = signed ? 1 : null;
    program.madeAt = written(past);
    program.firstSessionAt = past.firstSessionAt();
    program.firstSessionBy = past.firstSessionAt() == null ? null : past.therapistId();
    program.stoppedAt = past.stoppedAt();
    program.stopReason = past.stopReason();
    program.abandoned = past.abandoned();
    ProgramVersion version = version(program, past);
    Writing.write(content, padTypes, version);
    program.versions.add(version);
    if (signed) {
      Outlook outlook = Outlook.of(content, places.around(past.locationId(), padTypes));
      Derivation.fix(version, outlook);
      if (past.dueOn() != null) {
        version.dueOn = past.dueOn();
        version.sessionsLost = outlook.days().after(past.dueOn());
      }
    }
    if (past.settingUnitId() != null) {
      program.settings.add(setting(program, past));
    }
    rows.persist(program);
    justEntered.add("program", past.ref(), program.id);
    trail.record(
        Programs.subject(program),
        program.locationId,
        "imported",
        Happened.at(written(past)),
        null,
        signed ? Derivation.Fixed.of(version) : content);
    return program.id;
  }

  /**
   * Enters a session. A known {@code ref}, and a number of a day that is entered already, change
   * nothing.
   *
   * @return the number of the new or the known entry
   * @throws clinic.stimshelf.web.Refusal with everything that is wrong in it
   */
  @Transactional
  public Long enterSession(PastSession past) {
    String place = past.programId() + " " + past.on() + " " + past.number();
    Long known = justEntered.find("session", past.ref());
    if (known == null) {
      known = justEntered.find("session of the day", place);
    }
    // Two questions, each with an index of its own; joined by "or" they would read the whole table.
    if (known == null && past.ref() != null) {
      known = entered(logs.find("ref", past.ref()));
    }
    if (known == null) {
      known =
          entered(
              logs.find(
                  "programId = ?1 and onDay = ?2 and standingNth = ?3",
                  past.programId(),
                  past.on(),
                  past.number()));
    }
    if (known != null) {
      return known;
    }
    Program program = past.programId() == null ? null : rows.findById(past.programId());
    Refusals refusals = new Refusals();
    checkSession(past, program, refusals);
    refusals.throwIfAny();
    SessionLog log = new SessionLog();
    log.ref = past.ref();
    log.programId = past.programId();
    log.onDay = past.on();
    log.nth = past.number();
    log.standingNth = past.number();
    log.outcome = past.outcome();
    log.source = past.source();
    log.contractions = past.contractions();
    log.intensity = Writing.blankToNull(past.intensity());
    log.padsWords = Writing.blankToNull(past.pads());
    log.skinWords = Writing.blankToNull(past.skin());
    log.padsTrouble = past.padsTrouble();
    log.skinTrouble = past.skinTrouble();
    log.note = Writing.blankToNull(past.note());
    log.happenedAt =
        past.on().atTime(LocalTime.NOON).atZone(places.zone(program.locationId)).toInstant();
    log.recordedAt = clock.instant();
    logs.persist(log);
    justEntered.add("session", past.ref(), log.id);
    justEntered.add("session of the day", place, log.id);
    trail.record(
        Programs.subject(program),
        program.locationId,
        "imported",
        Happened.at(log.happenedAt),
        null,
        SessionView.of(log));
    return log.id;
  }

  private static Long entered(PanacheQuery<SessionLog> query) {
    return unflushed(query).stream().findFirst().map(log -> log.id).orElse(null);
  }

  private static <T> List<T> unflushed(PanacheQuery<T> query) {
    return query.withHint(HibernateHints.HINT_FLUSH_MODE, "COMMIT").list();
  }

  private static Content content(PastProgram past) {
    return new Content(
        Writing.blankToNull(past.template()),
        past.dose().values(),
        past.weekdays(),
        past.startsOn(),
        past.placements() == null ? List.of() : past.placements(),
        past.pads() == null ? List.of() : past.pads(),
        past.dueKind() == null ? DueDay.Kind.DROP_OFF : past.dueKind(),
        past.setting(),
        past.cautions(),
        past.instructions());
  }

  private void check(
      PastProgram past, Content content, Map<String, PadFact> padTypes, Refusals refusals) {
    Contents.check(content, muscle -> muscles.find(muscle).isPresent(), padTypes, refusals);
    if (content.template() != null && templates.find(content.template()).isEmpty()) {
      refusals.add("template", "There is no template “" + content.template() + "”.");
    }
    for (DoseField field :
        List.of(DoseField.SESSIONS_PER_DAY, DoseField.DAYS_PER_WEEK, DoseField.WEEKS)) {
      if (!content.dose().has(field)) {
        refusals.add(field.key(), field.words() + " is missing.");
      }
    }
    if (past.startsOn() == null) {
      refusals.add("startsOn", "The start day is missing.");
    }
    if (content.placements().isEmpty()) {
      refusals.add("placements", "No muscle is named.");
    }
    Instant now = clock.instant();
    if (written(past) == null || written(past).isAfter(now)) {
      refusals.add("draftedAt", "A past program needs the time at which it was written.");
    }
    if (past.signedAt() != null && past.signedAt().isAfter(now)) {
      refusals.add("signedAt", "The signature lies in the future.");
    }
    if (past.signedAt() == null && (past.firstSessionAt() != null || past.stoppedAt() != null)) {
      refusals.add("signedAt", "What was begun or stopped was signed before; say when.");
    }
    if (past.firstSessionAt() != null && past.firstSessionAt().isAfter(now)) {
      refusals.add("firstSessionAt", "The first session lies in the future.");
    }
    if (past.abandoned() && past.stoppedAt() == null) {
      refusals.add("abandoned", "What was abandoned ended; say when it was stopped.");
    }
    if (past.stoppedAt() != null && past.stoppedAt().isAfter(now)) {
      refusals.add("stoppedAt", "The end lies in the future.");
    }
  }

  private void checkSession(PastSession past, Program program, Refusals refusals) {
    if (program == null) {
      refusals.add("program", "There is no such program.");
    }
    if (past.on() == null) {
      refusals.add("on", "The day is missing.");
    } else if (program != null && past.on().isAfter(places.today(program.locationId))) {
      refusals.add("on", "The day lies in the future.");
    }
    if (past.number() < 1 || past.number() > 24) {
      refusals.add("number", "The number of the day must be a whole number from 1 to 24.");
    }
    if (past.outcome() == null) {
      refusals.add("outcome", "The outcome is missing: done, partial or not.");
    }
    if (past.source() == null) {
      refusals.add("source", "The source is missing: diary, phone, counter, clinic or patient.");
    }
  }

  private static ProgramVersion version(Program program, PastProgram past) {
    ProgramVersion version = new ProgramVersion();
    version.program = program;
    version.number = 1;
    boolean signed = past.signedAt() != null;
    version.state = signed ? VersionState.SIGNED : VersionState.DRAFT;
    version.draftedBy = past.therapistId();
    version.draftedAt = written(past);
    version.reviewed = signed;
    version.signedAt = past.signedAt();
    version.signedBy = signed ? past.therapistId() : null;
    return version;
  }

  private static Instant written(PastProgram past) {
    return past.draftedAt() == null ? past.signedAt() : past.draftedAt();
  }

  private static SettingConfirmed setting(Program program, PastProgram past) {
    SettingConfirmed row = new SettingConfirmed();
    row.program = program;
    row.versionNumber = 1;
    row.unitId = past.settingUnitId();
    row.unitTag = past.settingUnitTag();
    row.settingText = past.setting() == null ? "as signed" : past.setting();
    row.confirmedAt = past.settingAt() == null ? past.signedAt() : past.settingAt();
    row.confirmedBy = past.therapistId();
    return row;
  }
}
