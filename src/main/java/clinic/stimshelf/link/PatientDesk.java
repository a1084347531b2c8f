package clinic.stimshelf.link;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.appointments.ComingVisits;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.EventTime;
import clinic.stimshelf.program.HomeWords;
import clinic.stimshelf.program.LogSource;
import clinic.stimshelf.program.NewSession;
import clinic.stimshelf.program.Outcome;
import clinic.stimshelf.program.ProgramState;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SessionLogs;
import clinic.stimshelf.program.SessionsToDo;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.remind.PatientLinks;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a patient sees and does on their own page. Everything is of the one loan the link opens. */
@ApplicationScoped
class PatientDesk {
  /** So many days back a session may still be ticked. */
  private static final int BACK_DAYS = 3;

  private static final int AHEAD_DAYS = 7;
  private static final Locale SPANISH = Locale.forLanguageTag("es-US");

  @Inject Loans loans;
  @Inject Programs programs;
  @Inject SessionsToDo toDo;
  @Inject SessionLogs sessions;
  @Inject Reports reports;
  @Inject ComingVisits visits;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject HomeWords words;
  @Inject SignedIn signedIn;

  /** The loan with what belongs to it. */
  record Matter(
      LoanView loan, SignedProgram program, PatientView patient, LocationView place, String lang) {

    LocalDate day(Locations locations) {
      return locations.today(place.id());
    }
  }

  @Transactional
  Matter matter(PatientLinks.Opened opened) {
    LoanView loan = loans.byId(opened.loanId());
    PatientView patient = patients.byIds(List.of(opened.patientId())).get(opened.patientId());
    return new Matter(
        loan,
        programs.signed(Long.valueOf(loan.programId())).orElseThrow(),
        patient,
        locations.byCode(loan.location()),
        patient.language().startsWith("es") ? "es" : "en");
  }

  PatientPage.Lines lines(String lang) {
    return new PatientPage.Lines() {
      @Override
      public String line(String key) {
        return words.say(lang, "page-" + key);
      }

      @Override
      public String with(String key, String value) {
        return words.say(lang, "page-" + key, value);
      }
    };
  }

  @Transactional
  PatientPage page(Matter matter, String base, String said) {
    String lang = matter.lang();
    LocationView place = matter.place();
    SignedProgram program = matter.program();
    LocalDate today = matter.day(locations);
    List<SessionsToDo.Day> days =
        toDo.between(program.programId(), today.minusDays(BACK_DAYS), today.plusDays(AHEAD_DAYS));
    SessionsToDo.Day now = days.get(BACK_DAYS);
    List<PatientPage.Day> earlier = new ArrayList<>();
    for (int i = BACK_DAYS - 1; i >= 0; i--) {
      if (!days.get(i).sessions().isEmpty()) {
        earlier.add(day(lang, days.get(i)));
      }
    }
    boolean over = matter.loan().dueOn().isBefore(today);
    return new PatientPage(
        lang,
        lines(lang),
        base,
        longDay(lang, today),
        said,
        day(lang, now),
        notice(lang, matter, today, now),
        !now.sessions().isEmpty()
            && now.sessions().stream().allMatch(one -> one.outcome() == Outcome.DONE),
        earlier,
        program.padChanges().stream()
            .filter(day -> day.isAfter(today))
            .findFirst()
            .map(day -> longDay(lang, day))
            .orElse(null),
        visits.of(List.of(matter.patient().id())).stream()
            .findFirst()
            .map(
                visit -> {
                  var at = visit.startsAt().atZone(locations.zone(visit.locationId()));
                  return longDay(lang, at.toLocalDate()) + ", " + time(lang, at.toLocalTime());
                })
            .orElse(null),
        longDay(lang, matter.loan().dueOn()),
        over,
        place.name(),
        place.address(),
        place.phone(),
        ahead(lang, days.subList(BACK_DAYS + 1, days.size())),
        List.of(
            words.say(lang, "first"),
            words.say(lang, "never") + ": " + words.say(lang, "never-list"),
            words.say(lang, "stop")),
        hours(lang, place.id(), today),
        locations.urgentWords(place.id(), lang));
  }

  /** The return day and the coming pad changes, for a calendar. */
  @Transactional
  List<DaysFile.Entry> entries(Matter matter) {
    LocalDate today = matter.day(locations);
    String place =
        matter.place().address() == null
            ? matter.place().name()
            : matter.place().name() + ", " + matter.place().address();
    List<DaysFile.Entry> entries = new ArrayList<>();
    matter.program().padChanges().stream()
        .filter(day -> !day.isBefore(today))
        .forEach(
            day ->
                entries.add(
                    new DaysFile.Entry(
                        day, words.say(matter.lang(), "page-calendar-change"), null)));
    entries.add(
        new DaysFile.Entry(matter.loan().dueOn(), words.say(matter.lang(), "page-return"), place));
    return entries;
  }

  private String notice(String lang, Matter matter, LocalDate today, SessionsToDo.Day now) {
    String about = notice(lang, matter.program(), today, now);
    boolean toSet =
        matter.loan().settingGap() != null
            && matter.program().state() == ProgramState.SIGNED
            && !today.isAfter(matter.program().lastSessionOn());
    return !toSet ? about : (about == null ? "" : about + " ") + words.say(lang, "page-to-set");
  }

  private String notice(String lang, SignedProgram program, LocalDate today, SessionsToDo.Day now) {
    if (program.state() == ProgramState.HELD) {
      return words.say(lang, "page-held");
    }
    if (program.state() == ProgramState.STOPPED) {
      return words.say(lang, "page-stopped");
    }
    if (today.isBefore(program.startsOn())) {
      return words.say(lang, "page-begins", longDay(lang, program.startsOn()));
    }
    if (today.isAfter(program.lastSessionOn())) {
      return words.say(lang, "page-over", longDay(lang, program.lastSessionOn()));
    }
    if (program.state() == ProgramState.PAUSED) {
      return words.say(lang, "page-paused");
    }
    return now.sessions().isEmpty() ? words.say(lang, "page-none-today") : null;
  }

  private PatientPage.Day day(String lang, SessionsToDo.Day day) {
    return new PatientPage.Day(
        day.on().toString(),
        longDay(lang, day.on()),
        day.newPads(),
        day.sessions().stream()
            .map(
                one ->
                    new PatientPage.Box(
                        one.nth(),
                        words.say(lang, "session", one.nth()),
                        one.outcome() == null ? null : said(lang, one.outcome()),
                        one.own()))
            .toList());
  }

  private String said(String lang, Outcome outcome) {
    return words.say(
        lang,
        switch (outcome) {
          case DONE -> "page-was-done";
          case PARTIAL -> "page-was-partly";
          case NOT -> "page-was-not";
        });
  }

  private List<PatientPage.Ahead> ahead(String lang, List<SessionsToDo.Day> days) {
    return days.stream()
        .map(
            day ->
                new PatientPage.Ahead(
                    shortDay(lang, day.on()),
                    day.sessions().isEmpty()
                        ? "–"
                        : day.sessions().size() == 1
                            ? words.say(lang, "one-session")
                            : words.say(lang, "sessions", day.sessions().size()),
                    day.newPads()))
        .toList();
  }

  private List<String> hours(String lang, Long locationId, LocalDate today) {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < AHEAD_DAYS; i++) {
      LocalDate day = today.plusDays(i);
      List<DayHours> hours = locations.hours(locationId, day);
      if (!hours.isEmpty()) {
        lines.add(
            shortDay(lang, day)
                + ", "
                + String.join(
                    "; ",
                    hours.stream()
                        .map(one -> time(lang, one.opens()) + " – " + time(lang, one.closes()))
                        .toList()));
      }
    }
    return lines;
  }

  /**
   * The patient says how a session went; saying the same twice is saying it once.
   *
   * @throws clinic.stimshelf.web.Refusal if there is no such session to tell of
   */
  @Transactional
  void tick(Matter matter, LocalDate day, int nth, Outcome outcome) {
    SessionsToDo.Session session = session(matter, day, nth);
    if (session == null || session.outcome() == outcome) {
      return;
    }
    Long program = matter.program().programId();
    signedIn.asPatient(
        matter.place().id(),
        () ->
            sessions.log(
                program,
                new NewSession(
                    day,
                    nth,
                    outcome,
                    LogSource.PATIENT,
                    null,
                    null,
                    null,
                    null,
                    false,
                    false,
                    null),
                new EventTime(null, null)));
  }

  /** The patient takes back what they themselves entered. */
  @Transactional
  void takeBack(Matter matter, LocalDate day, int nth) {
    SessionsToDo.Session session = session(matter, day, nth);
    if (session != null && session.own()) {
      signedIn.asPatient(
          matter.place().id(),
          () ->
              sessions.voided(
                  matter.program().programId(),
                  session.logId(),
                  "taken back on the patient's page"));
    }
  }

  private SessionsToDo.Session session(Matter matter, LocalDate day, int nth) {
    LocalDate today = matter.day(locations);
    if (day == null || day.isAfter(today) || day.isBefore(today.minusDays(BACK_DAYS))) {
      return null;
    }
    return toDo.between(matter.program().programId(), day, day).get(0).sessions().stream()
        .filter(one -> one.nth() == nth)
        .findFirst()
        .orElse(null);
  }

  /** What the patient reports; false where they reported so often that they should call. */
  @Transactional
  boolean report(Matter matter, ReportKind kind) {
    return signedIn.asPatient(
        matter.place().id(),
        () -> reports.add(matter.program(), Long.valueOf(matter.loan().id()), kind));
  }

  static String longDay(String lang, LocalDate day) {
    return "es".equals(lang)
        ? DateTimeFormatter.ofPattern("EEEE d 'de' MMMM", SPANISH).format(day)
        : DateTimeFormatter.ofPattern("EEEE, MMMM d", Locale.US).format(day);
  }

  private static String shortDay(String lang, LocalDate day) {
    return "es".equals(lang)
        ? DateTimeFormatter.ofPattern("EEE d MMM", SPANISH).format(day)
        : DateTimeFormatter.ofPattern("EEE MMM d", Locale.US).format(day);
  }

  private static String time(String lang, LocalTime time) {
    String clock = DateTimeFormatter.ofPattern("h:mm", Locale.US).format(time);
    boolean morning = time.isBefore(LocalTime.NOON);
    return "es".equals(lang)
        ? clock + (morning ? "\u00a0a.\u00a0m." : "\u00a0p.\u00a0m.")
        : clock + (morning ? " AM" : " PM");
  }
}
