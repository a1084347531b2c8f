package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.PadPlan;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.UrgentWords;
import clinic.stimshelf.people.Muscle;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.Side;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Writes the home instructions of a program. */
@ApplicationScoped
class HomeSheets {
  @Inject Programs programs;
  @Inject Surveys surveys;
  @Inject HomeWords words;
  @Inject Sketches sketches;
  @Inject Muscles muscles;
  @Inject Patients patients;
  @Inject Locations locations;

  /**
   * The sheet of the version in force, or of the draft while nothing is signed.
   *
   * @param language {@code en} or {@code es}; {@code null} for the patient's own
   */
  @Transactional
  HomeSheet of(Long programId, String language) {
    Program program = programs.seen(programId);
    ProgramVersion version = program.signed() == null ? program.latest() : program.signed();
    PatientView patient = patients.byId(program.patientId);
    String lang = "es".equals(language == null ? patient.language() : language) ? "es" : "en";
    LocationView location = locations.byId(program.locationId);
    Content content = Writing.read(version);
    Outlook outlook = surveys.ofVersion(program, version);
    LocalDate due = version.signedAt == null ? null : version.dueOn;
    List<HomeSheet.Part> parts = new ArrayList<>();
    parts.add(what(lang, content, outlook));
    parts.add(strength(lang, content));
    List<HomeSheet.Part> after = new ArrayList<>();
    after.add(pads(lang, outlook));
    after.add(skin(lang, location));
    after.add(
        new HomeSheet.Part(
            words.say(lang, "never"),
            List.of(words.say(lang, "never-list"), words.say(lang, "stop")),
            true));
    if (content.cautions() != null) {
      after.add(new HomeSheet.Part(words.say(lang, "cautions"), List.of(content.cautions()), true));
    }
    if (content.instructions() != null) {
      after.add(
          new HomeSheet.Part(
              words.say(lang, "instructions"), List.of(content.instructions()), false));
    }
    after.add(
        new HomeSheet.Part(
            words.say(lang, "back"),
            List.of(
                due == null
                    ? words.say(lang, "back-open")
                    : words.say(lang, "back-on", day(lang, due), location.name()),
                location.phone() == null
                    ? words.say(lang, "call-no-phone", location.name())
                    : words.say(lang, "call", location.name(), location.phone())),
            false));
    parts.addAll(after);
    return new HomeSheet(
        lang,
        words.say(lang, "title"),
        words.say(lang, "for", patient.name()),
        program.signed() == null ? words.say(lang, "draft") : null,
        words.say(lang, "first"),
        parts,
        words.say(lang, "where"),
        content.placements().stream().map(one -> place(lang, one)).toList(),
        words.say(lang, "tick"),
        columns(lang, outlook),
        days(lang, outlook));
  }

  private HomeSheet.Part what(String lang, Content content, Outlook outlook) {
    List<String> sentences = new ArrayList<>();
    if (outlook.days() != null) {
      boolean daily = outlook.days().days().size() == 7 * content.dose().whole(DoseField.WEEKS);
      boolean everyDay =
          daily && content.dose().whole(DoseField.DAYS_PER_WEEK) == 7 && unbroken(outlook);
      sentences.add(
          words.say(
              lang,
              everyDay ? "how-often-daily" : "how-often",
              sessions(lang, outlook.days().sessionsPerDay()),
              day(lang, outlook.days().firstDay()),
              day(lang, outlook.days().lastDay()),
              sessions(lang, outlook.days().count())));
    }
    Outlook.Session session = outlook.session();
    if (session != null && session.contractions() != null) {
      sentences.add(
          words.say(
              lang,
              "rhythm",
              DoseField.plain(session.rhythm().onSeconds()).toPlainString(),
              DoseField.plain(session.rhythm().offSeconds()).toPlainString(),
              session.contractions(),
              length(lang, session.seconds())));
    }
    if (content.setting() != null) {
      sentences.add(words.say(lang, "setting", content.setting()));
    }
    return new HomeSheet.Part(words.say(lang, "what"), sentences, false);
  }

  private static boolean unbroken(Outlook outlook) {
    List<LocalDate> days = outlook.days().days();
    return days.get(0).plusDays(days.size() - 1L).equals(days.get(days.size() - 1));
  }

  private HomeSheet.Part strength(String lang, Content content) {
    List<String> sentences = new ArrayList<>();
    sentences.add(words.say(lang, "strong"));
    DoseValues dose = content.dose();
    if (dose.has(DoseField.INTENSITY)) {
      sentences.add(words.say(lang, "intensity-words", dose.text(DoseField.INTENSITY)));
    }
    if (dose.has(DoseField.LIMIT_MA)) {
      sentences.add(
          words.say(
              lang, "limit", DoseField.plain(dose.number(DoseField.LIMIT_MA)).toPlainString()));
    }
    return new HomeSheet.Part(words.say(lang, "intensity"), sentences, false);
  }

  private HomeSheet.Place place(String lang, Placement one) {
    Muscle muscle = muscles.find(one.muscle()).orElse(null);
    String name = muscle == null ? one.muscle() : muscle.words(lang);
    String side = one.side() == null ? "" : ", " + words.say(lang, "side-" + one.side().word());
    boolean paired = muscle == null || !"trunk".equals(muscles.region(muscle.region()).limb());
    String where =
        one.where() != null
            ? one.where() + " " + words.say(lang, "as-shown")
            : muscle == null ? words.say(lang, "as-shown") : muscle.placementWords(lang);
    return new HomeSheet.Place(
        name + side,
        where,
        sketches.of(one.muscle(), one.side() == null ? Side.RIGHT : one.side(), paired),
        words.say(lang, "sketch", name + side));
  }

  private HomeSheet.Part pads(String lang, Outlook outlook) {
    List<String> sentences = new ArrayList<>();
    sentences.add(words.say(lang, "pads-yours"));
    if (outlook.days() != null) {
      List<LocalDate> changes = outlook.padChanges();
      sentences.add(
          changes.isEmpty()
              ? words.say(lang, "pads-no-change")
              : words.say(
                  lang,
                  "pads-change",
                  changes.stream()
                      .map(day -> shortDay(lang, day))
                      .collect(Collectors.joining(", "))));
    }
    sentences.add(words.say(lang, "pads-worn"));
    return new HomeSheet.Part(words.say(lang, "pads"), sentences, false);
  }

  private HomeSheet.Part skin(String lang, LocationView location) {
    List<String> sentences = new ArrayList<>();
    sentences.add(words.say(lang, "skin-fine"));
    sentences.add(words.say(lang, "skin-stop"));
    sentences.add(words.say(lang, "skin-call"));
    UrgentWords urgent = locations.urgentWords(location.id(), lang);
    Stream.of(urgent.afterHours(), urgent.emergency())
        .filter(Objects::nonNull)
        .forEach(one -> sentences.add(one.words()));
    return new HomeSheet.Part(words.say(lang, "skin"), sentences, true);
  }

  private List<String> columns(String lang, Outlook outlook) {
    List<String> columns = new ArrayList<>();
    columns.add(words.say(lang, "day"));
    int sessions = outlook.days() == null ? 1 : outlook.days().sessionsPerDay();
    IntStream.rangeClosed(1, sessions).forEach(nth -> columns.add(words.say(lang, "session", nth)));
    columns.add(words.say(lang, "notes"));
    return columns;
  }

  private List<HomeSheet.Day> days(String lang, Outlook outlook) {
    if (outlook.days() == null) {
      return List.of();
    }
    Set<LocalDate> changes = new TreeSet<>();
    outlook.pads().forEach(line -> changes.addAll(opened(line.plan())));
    List<Integer> boxes =
        IntStream.rangeClosed(1, outlook.days().sessionsPerDay()).boxed().toList();
    return outlook.days().days().stream()
        .map(
            day ->
                new HomeSheet.Day(
                    shortDay(lang, day),
                    boxes,
                    changes.contains(day) ? words.say(lang, "new-pads") : ""))
        .toList();
  }

  private static List<LocalDate> opened(PadPlan plan) {
    return plan.openings().stream().map(PadPlan.Opening::day).toList();
  }

  private String sessions(String lang, int sessions) {
    return sessions == 1 ? words.say(lang, "one-session") : words.say(lang, "sessions", sessions);
  }

  private String length(String lang, BigDecimal seconds) {
    BigDecimal[] parts = seconds.divideAndRemainder(BigDecimal.valueOf(60));
    return parts[1].signum() == 0
        ? words.say(lang, "minutes", parts[0].intValue())
        : words.say(
            lang,
            "minutes-and-seconds",
            parts[0].intValue(),
            DoseField.plain(parts[1]).toPlainString());
  }

  private static String day(String lang, LocalDate day) {
    return format(lang, day, "EEEE, MMMM d", "EEEE d 'de' MMMM");
  }

  private static String shortDay(String lang, LocalDate day) {
    return format(lang, day, "EEE MMM d", "EEE d MMM");
  }

  private static String format(String lang, LocalDate day, String english, String spanish) {
    return "es".equals(lang)
        ? DateTimeFormatter.ofPattern(spanish, Locale.forLanguageTag("es-US")).format(day)
        : DateTimeFormatter.ofPattern(english, Locale.US).format(day);
  }
}
