package clinic.stimshelf.program;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.NeedsMeSource.Ask;
import clinic.stimshelf.program.NeedsMeSource.Line;
import clinic.stimshelf.program.NeedsMeSource.Section;
import clinic.stimshelf.web.Days;
import io.quarkus.arc.All;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** Whom a therapist must see to, in the order in which one would. */
@ApplicationScoped
class NeedsMe {
  private static final int TROUBLE_DAYS = 14;
  private static final int SILENT_DAYS = 3;

  @Inject ProgramRows rows;
  @Inject SessionLogRows logs;
  @Inject SessionLogs sessions;
  @Inject GivenUpPrograms givenUp;
  @Inject LentFor lending;
  @Inject ProgramViews views;
  @Inject EndDecisions ends;
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject @All List<NeedsMeSource> sources;

  /** A program in the list of all. */
  record Row(
      Long id,
      String name,
      String chartNumber,
      String muscles,
      String state,
      String followed,
      String notLogged,
      LocalDate startsOn,
      LocalDate lastSessionOn,
      LocalDate dueOn) {}

  /**
   * The page.
   *
   * @param sections without the empty ones
   */
  record Desk(List<Section> sections, List<Row> rows) {

    public int matters() {
      return sections.stream().mapToInt(section -> section.lines().size()).sum();
    }
  }

  @Transactional
  Desk desk(Ask ask) {
    List<Program> programs =
        rows.list(
            "locationId = ?1 and state <> ?2 order by id", ask.locationId(), ProgramState.STOPPED);
    List<Program> signed =
        programs.stream()
            .filter(one -> one.state == ProgramState.SIGNED && mine(ask, one))
            .filter(one -> !one.signed().dueOn.isBefore(ask.today().minusDays(30)))
            .toList();
    List<Program> drafts =
        programs.stream()
            .filter(one -> one.latest().state == VersionState.DRAFT && concerns(ask, one))
            .toList();
    Map<Long, PatientView> people = people(signed, drafts);
    Map<Long, List<Adherence.Known>> known =
        sessions.known(signed.stream().map(one -> one.id).toList());
    Map<Long, Adherence> followed =
        sessions.adherence(signed, Map.of(ask.locationId(), ask.today()), known);
    List<Running> all =
        signed.stream()
            .map(
                one ->
                    new Running(one, one.signed(), people.get(one.patientId), followed.get(one.id)))
            .toList();
    List<Running> running =
        all.stream()
            .filter(one -> one.program().hold() == null && one.patient().diedOn() == null)
            .toList();
    int endDays = locations.settings(ask.locationId()).whole(Setting.END_DECISION_DAYS);
    Set<Long> decided = ends.decided(signed);
    List<Program> going =
        running.stream().filter(one -> goesOn(one, ask)).map(Running::program).toList();
    Map<Long, LentFor.Lent> lent =
        lending.of(ask.locationId(), going.stream().map(one -> one.id).toList());
    Map<Long, GivenUpPrograms.Asked> asked =
        givenUp.of(ask.locationId(), ask.today(), going, known, lent);
    Predicate<Running> followable =
        one -> goesOn(one, ask) && one.followed() != null && !asked.containsKey(one.program().id);
    List<Section> sections = new ArrayList<>();
    sections.add(
        section(
            15,
            "Stopped until screened again",
            all,
            one -> one.program().hold() != null && one.patient().diedOn() == null,
            NeedsMeLines::held));
    sections.add(trouble(ask, running));
    sections.add(
        section(
            30,
            "Behind plan",
            running,
            followable.and(one -> one.followed().behind()),
            one -> NeedsMeLines.behind(one, lent.get(one.program().id))));
    sections.add(
        section(
            35,
            "Not logged",
            running,
            followable.and(
                one -> !one.followed().behind() && one.followed().daysNotLogged() >= SILENT_DAYS),
            NeedsMeLines::silent));
    sections.add(
        section(
            38,
            "Given up?",
            running,
            one -> asked.containsKey(one.program().id),
            one -> NeedsMeLines.givenUp(one, asked.get(one.program().id))));
    sections.add(
        section(
            40,
            "Ends within " + endDays + " days",
            running,
            one ->
                !decided.contains(one.program().id)
                    && !one.version().dueOn.isBefore(ask.today())
                    && !one.version().lastSessionOn.isAfter(ask.today().plusDays(endDays)),
            NeedsMeLines::ends));
    sections.add(
        section(
            60,
            "Before the unit can leave",
            running,
            one ->
                !one.version().lastSessionOn.isBefore(ask.today())
                    && (one.program().firstSessionAt == null || !one.program().settingConfirmed()),
            NeedsMeLines::before));
    sections.add(drafts(drafts, people));
    sources.forEach(source -> sections.addAll(source.sections(ask)));
    sections.removeIf(section -> section.lines().isEmpty());
    sections.sort(Comparator.comparingInt(Section::order));
    return new Desk(sections, all.stream().map(one -> row(one, ask.today())).toList());
  }

  private boolean mine(Ask ask, Program program) {
    return ask.therapistId() == null || ask.therapistId().equals(program.therapistId);
  }

  /** A draft concerns who wrote it and, where they may not sign it, every PT of the location. */
  private boolean concerns(Ask ask, Program program) {
    return mine(ask, program)
        || Objects.equals(program.latest().draftedBy, ask.therapistId())
        || (program.latest().draftedBy != null
            && staff.byId(program.latest().draftedBy).credential() != Credential.PT);
  }

  private Map<Long, PatientView> people(List<Program> signed, List<Program> drafts) {
    List<Long> ids = new ArrayList<>();
    signed.forEach(one -> ids.add(one.patientId));
    drafts.forEach(one -> ids.add(one.patientId));
    return patients.byIds(ids);
  }

  private static boolean goesOn(Running one, Ask ask) {
    return !ask.today().isAfter(one.version().lastSessionOn.plusDays(1));
  }

  private Section trouble(Ask ask, List<Running> running) {
    Map<Long, Running> byId =
        running.stream().collect(Collectors.toMap(one -> one.program().id, Function.identity()));
    List<Line> lines = new ArrayList<>();
    if (!byId.isEmpty()) {
      for (SessionLog log :
          logs.list(
              "programId in ?1 and onDay >= ?2 and standingNth is not null"
                  + " and (skinTrouble = true or padsTrouble = true) order by onDay desc, id desc",
              byId.keySet(),
              ask.today().minusDays(TROUBLE_DAYS))) {
        Running one = byId.get(log.programId);
        lines.add(
            NeedsMeLines.line(
                one,
                Days.shortly(log.onDay),
                log.skinTrouble ? "Skin under the pads" : "Pads",
                log.skinTrouble ? log.skinWords : log.padsWords,
                "Look at program"));
      }
    }
    return new Section(20, "Skin and pads", lines);
  }

  private static Section section(
      int order,
      String title,
      List<Running> running,
      Predicate<Running> concerned,
      Function<Running, Line> words) {
    return new Section(order, title, running.stream().filter(concerned).map(words).toList());
  }

  private Section drafts(List<Program> drafts, Map<Long, PatientView> people) {
    List<Line> lines = new ArrayList<>();
    for (Program program : drafts) {
      ProgramVersion draft = program.latest();
      StaffView writer = draft.draftedBy == null ? null : staff.byId(draft.draftedBy);
      boolean cosign = writer != null && writer.credential() != Credential.PT;
      PatientView patient = people.get(program.patientId);
      lines.add(
          new Line(
              cosign ? "co-sign" : "sign",
              patient.name(),
              patient.chartNumber(),
              "Draft by "
                  + (writer == null
                      ? "somebody"
                      : writer.name() + ", " + writer.credential().label())
                  + (program.signedNumber == null ? "" : "; version " + draft.number),
              draft.changeReason,
              "/programs/" + program.id,
              cosign ? "Review and co-sign" : "Review and sign"));
    }
    return new Section(70, "Drafts to sign", lines);
  }

  private Row row(Running one, LocalDate today) {
    ProgramVersion version = one.version();
    Adherence followed = one.followed();
    String state =
        one.program().hold() != null
            ? "stopped for now"
            : one.program().stateOn(today) == ProgramState.PAUSED
                ? "paused"
                : today.isBefore(version.startsOn)
                    ? "starts " + Days.shortly(version.startsOn)
                    : today.isAfter(version.lastSessionOn) ? "over" : "running";
    return new Row(
        one.program().id,
        one.patient().name(),
        one.patient().chartNumber(),
        version.placements.stream()
            .map(place -> views.words(place.muscle, place.side, "en"))
            .collect(Collectors.joining("; ")),
        state,
        followed == null || followed.planned() == 0
            ? "–"
            : followed.done() + " of " + followed.planned(),
        followed == null ? "–" : String.valueOf(followed.notLogged()),
        version.startsOn,
        version.lastSessionOn,
        version.dueOn);
  }
}
