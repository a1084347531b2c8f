package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** What is known of the sessions at home. */
@ApplicationScoped
public class SessionLogs {
  private static final int MOST_A_DAY = 24;

  /** Sessions that may be entered for a day beyond those planned. */
  private static final int BEYOND = 4;

  @Inject ProgramRows programs;
  @Inject SessionLogRows rows;
  @Inject PadSets padSets;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject Event<SessionLogged> logged;

  /**
   * Enters a session. One that is told of later than its own day needs no reason beyond its source:
   * a diary is always read afterwards.
   *
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public SessionView log(Long programId, NewSession told, EventTime at) {
    return log(programId, told, at, true);
  }

  /**
   * A treatment in the clinic, entered as a session of the program that runs on its day.
   *
   * @param full whether all of it was done
   * @param replaces whether it stands for a session at home; otherwise it is one more
   * @param ownPads whether the patient's own pads were used
   * @return nothing where no program runs, or as many are entered as a day takes
   */
  @Transactional
  public Optional<SessionView> treated(
      Long patientId,
      Long locationId,
      boolean full,
      boolean replaces,
      boolean ownPads,
      EventTime at) {
    ZoneId zone = locations.zone(locationId);
    Instant when = at.happenedAt() == null ? clock.instant() : at.happenedAt();
    LocalDate day = LocalDate.ofInstant(when, zone);
    for (Program program :
        programs.list(
            "patientId = ?1 and locationId = ?2 and stoppedAt is null order by id desc",
            patientId,
            locationId)) {
      Planned planned = Planned.of(program, zone);
      if (!planned.any() || day.isBefore(planned.start()) || day.isAfter(planned.last())) {
        continue;
      }
      int entered = standing(program.id, day).stream().mapToInt(log -> log.nth).max().orElse(0);
      int extra = Math.max(planned.on(day), entered) + 1;
      int free = free(planned.on(day), standing(program.id, day));
      int number = replaces && free <= planned.on(day) ? free : extra;
      if (number > Math.min(MOST_A_DAY, planned.on(day) + BEYOND)) {
        return Optional.empty();
      }
      NewSession told =
          new NewSession(
              day,
              number,
              full ? Outcome.DONE : Outcome.PARTIAL,
              LogSource.CLINIC,
              null,
              null,
              null,
              null,
              false,
              false,
              "Treatment in the clinic");
      return Optional.of(log(program.id, told, at, ownPads));
    }
    return Optional.empty();
  }

  private static int free(int planned, List<SessionLog> standing) {
    return IntStream.rangeClosed(1, planned + BEYOND)
        .filter(nth -> standing.stream().noneMatch(log -> log.nth == nth))
        .findFirst()
        .orElse(planned + BEYOND + 1);
  }

  private SessionView log(Long programId, NewSession told, EventTime at, boolean ownPads) {
    Program program = program(programId);
    ZoneId zone = locations.zone(program.locationId);
    Refusals refusals = new Refusals();
    LocalDate today = locations.today(program.locationId);
    LocalDate day =
        told.on() != null
            ? told.on()
            : at.happenedAt() == null ? today : LocalDate.ofInstant(at.happenedAt(), zone);
    Planned planned = Planned.of(program, zone);
    Happened happened = happened(at, told.source(), day, today, zone, refusals);
    check(told, day, today, planned, refusals);
    List<SessionLog> standing = standing(programId, day);
    Integer number = number(told, planned.on(day), standing, refusals);
    refusals.throwIfAny();
    SessionLog log = new SessionLog();
    log.programId = programId;
    log.onDay = day;
    log.nth = number;
    log.standingNth = number;
    log.outcome = told.outcome();
    log.source = told.source();
    log.contractions = told.contractions();
    log.intensity = Writing.blankToNull(told.intensity());
    log.padsWords = Writing.blankToNull(told.pads());
    log.skinWords = Writing.blankToNull(told.skin());
    log.padsTrouble = told.padsTrouble();
    log.skinTrouble = told.skinTrouble();
    log.note = Writing.blankToNull(told.note());
    log.happenedAt = happened.at();
    log.recordedAt = clock.instant();
    log.lateReason = happened.lateReason();
    log.staffId = signedIn.staffId();
    rows.persistAndFlush(log);
    use(program, log, ownPads ? 1 : 0, happened);
    trail.record(
        Programs.subject(program),
        program.locationId,
        "session logged",
        happened,
        null,
        SessionView.of(log));
    return SessionView.of(log);
  }

  /** Takes a session back that was entered wrongly; its number is free again. */
  @Transactional
  public SessionView voided(Long programId, Long logId, String reason) {
    Program program = program(programId);
    SessionLog log = logId == null ? null : rows.findById(logId);
    if (log == null || !log.programId.equals(programId)) {
      throw new NotFound("There is no such session of this program.");
    }
    Refusals refusals = new Refusals();
    if (log.voidedAt != null) {
      refusals.add(null, "This entry was voided already.");
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      refusals.add("reason", "Say in at most 500 characters what was wrong with the entry.");
    }
    refusals.throwIfAny();
    SessionView before = SessionView.of(log);
    log.standingNth = null;
    log.voidedAt = clock.instant();
    log.voidReason = reason.strip();
    rows.flush();
    use(program, log, -1, times.now());
    trail.record(
        Programs.subject(program),
        program.locationId,
        "session voided",
        times.now(),
        before,
        SessionView.of(log));
    return SessionView.of(log);
  }

  /** Everything entered for a program, newest day first; voided entries too. */
  @Transactional
  public List<SessionView> of(Long programId) {
    return rows.list("programId = ?1 order by onDay desc, nth desc, id desc", programId).stream()
        .map(SessionView::of)
        .toList();
  }

  /** The same up to yesterday at the program's location. */
  @Transactional
  public Adherence adherence(Long programId) {
    return adherence(programId, locations.today(program(programId).locationId));
  }

  /**
   * How a program was followed up to the day before the given one.
   *
   * @return {@code null} while nothing is signed
   */
  @Transactional
  public Adherence adherence(Long programId, LocalDate today) {
    Program program = program(programId);
    return adherence(List.of(program), Map.of(program.locationId, today)).get(programId);
  }

  /** The same for many programs, with one question to the database. */
  Map<Long, Adherence> adherence(Collection<Program> many, Map<Long, LocalDate> todayAt) {
    return adherence(many, todayAt, known(many.stream().map(one -> one.id).toList()));
  }

  /** The same where what is known has been read already. */
  Map<Long, Adherence> adherence(
      Collection<Program> many,
      Map<Long, LocalDate> todayAt,
      Map<Long, List<Adherence.Known>> known) {
    Map<Long, Adherence> found = new HashMap<>();
    for (Program program : many) {
      Planned planned = Planned.of(program, locations.zone(program.locationId));
      if (planned.any()) {
        LocalDate yesterday = todayAt.get(program.locationId).minusDays(1);
        LocalDate to = yesterday.isAfter(planned.last()) ? planned.last() : yesterday;
        found.put(
            program.id,
            Adherence.of(planned, known.getOrDefault(program.id, List.of()), planned.start(), to));
      }
    }
    return found;
  }

  Map<Long, List<Adherence.Known>> known(List<Long> programIds) {
    if (programIds.isEmpty()) {
      return Map.of();
    }
    return rows.list("programId in ?1 and standingNth is not null", programIds).stream()
        .collect(
            Collectors.groupingBy(
                log -> log.programId,
                Collectors.mapping(
                    log -> new Adherence.Known(log.onDay, log.nth, log.outcome),
                    Collectors.toList())));
  }

  private Program program(Long id) {
    Program program = id == null ? null : programs.findById(id);
    if (program == null) {
      throw new NotFound("There is no such program.");
    }
    signedIn.requireLocation(program.locationId);
    return program;
  }

  /** Tells the pads and whoever else listens; a session that did not take place wore nothing. */
  private void use(Program program, SessionLog log, int sessions, Happened happened) {
    boolean used = log.outcome != Outcome.NOT;
    padSets.told(program.patientId, program.id, log.onDay, used ? sessions : 0, happened);
    if (used && log.source != LogSource.CLINIC) {
      logged.fire(new SessionLogged(program.id, log.onDay, log.voidedAt == null ? 1 : -1));
    }
  }

  private List<SessionLog> standing(Long programId, LocalDate day) {
    return rows.list("programId = ?1 and onDay = ?2 and standingNth is not null", programId, day);
  }

  private Happened happened(
      EventTime at,
      LogSource source,
      LocalDate day,
      LocalDate today,
      ZoneId zone,
      Refusals refusals) {
    Instant when = at.happenedAt();
    if (when == null && day.isBefore(today)) {
      when = day.atTime(LocalTime.NOON).atZone(zone).toInstant();
    }
    boolean blank = at.lateReason() == null || at.lateReason().isBlank();
    String reason = blank && source != null ? "told later: " + source.words() : at.lateReason();
    return times.of(when, reason, zone, refusals);
  }

  private static void check(
      NewSession told, LocalDate day, LocalDate today, Planned planned, Refusals refusals) {
    if (!planned.any()) {
      refusals.add(null, "The program is not signed.", "A licensed PT signs it first.");
    } else if (day.isBefore(planned.start())) {
      refusals.add("on", "The program starts on " + planned.start() + ".", "Look at the day.");
    }
    if (day.isAfter(today)) {
      refusals.add("on", "That day lies in the future.", "Enter a session once it is over.");
    }
    if (told.outcome() == null) {
      refusals.add("outcome", "How did it go: done, partial or not?");
    }
    if (told.source() == null) {
      refusals.add(
          "source", "How is it known: diary, phone, counter, clinic or the patient's page?");
    }
    if (told.contractions() != null
        && !(told.contractions() >= 0 && told.contractions() <= 10_000)) {
      refusals.add("contractions", "Contractions must be a whole number from 0 to 10000.");
    }
    text("intensity", told.intensity(), 120, refusals);
    text("pads", told.pads(), 300, refusals);
    text("skin", told.skin(), 300, refusals);
    text("note", told.note(), 500, refusals);
  }

  private static Integer number(
      NewSession told, int planned, List<SessionLog> standing, Refusals refusals) {
    int most = Math.min(MOST_A_DAY, planned + BEYOND);
    Integer wanted = told.number();
    if (wanted == null) {
      Integer free =
          IntStream.rangeClosed(1, most)
              .boxed()
              .filter(nth -> standing.stream().noneMatch(log -> log.nth == nth))
              .findFirst()
              .orElse(null);
      if (free == null) {
        refusals.add("number", "Every session of that day is entered already.");
      }
      return free;
    }
    if (!(wanted >= 1 && wanted <= most)) {
      refusals.add(
          "number", "The number of the day must be a whole number from 1 to " + most + ".");
    }
    standing.stream()
        .filter(log -> log.nth == wanted)
        .findFirst()
        .ifPresent(
            log ->
                refusals.add(
                    "number",
                    "Session " + wanted + " of that day is entered as " + log.outcome.word() + ".",
                    "Void that entry first if it is wrong."));
    return wanted;
  }

  private static void text(String field, String text, int most, Refusals refusals) {
    if (text != null && text.length() > most) {
      refusals.add(field, "At most " + most + " characters.");
    }
  }
}
