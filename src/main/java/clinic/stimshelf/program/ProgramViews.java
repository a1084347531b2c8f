package clinic.stimshelf.program;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.Side;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Shows programs to pages, scripts and the rooms below. */
@ApplicationScoped
class ProgramViews {
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Muscles muscles;
  @Inject Templates templates;
  @Inject Surveys surveys;
  @Inject PadFacts padFacts;

  ProgramView view(Program program, ProgramVersion version) {
    LocationView location = locations.byId(program.locationId);
    LocalDate today = locations.today(program.locationId);
    Content content = Writing.read(version);
    Outlook outlook = surveys.ofVersion(program, version);
    DoseValues dose = content.dose();
    boolean fixed = version.signedAt != null;
    DueDay wanted = outlook.due(content.dueKind());
    Map<Long, String> names = staff.names(people(program));
    Map<String, PadFact> padTypes = padFacts.byCode();
    Template template = templates.find(version.template).orElse(null);
    List<ProgramView.Packs> packs = fixed ? fixedPacks(version) : plannedPacks(outlook);
    Outlook.Session session = outlook.session();
    return new ProgramView(
        program.id,
        program.ref,
        program.patientId,
        location.code(),
        program.therapistId,
        names.get(program.therapistId),
        program.stateOn(today),
        version.number,
        version.state,
        program.signedNumber,
        version.template,
        template == null ? null : template.source(),
        template == null
            ? List.of()
            : template.differences(dose).stream()
                .map(d -> new ProgramView.Change(d.field(), d.words(), d.source(), d.now()))
                .toList(),
        dose.number(DoseField.ON_SECONDS),
        dose.number(DoseField.OFF_SECONDS),
        dose.number(DoseField.RAMP_UP_SECONDS),
        dose.number(DoseField.RAMP_DOWN_SECONDS),
        dose.yes(DoseField.RAMP_INSIDE_ON),
        dose.yes(DoseField.DROP_LAST_REST),
        dose.whole(DoseField.CONTRACTIONS),
        dose.number(DoseField.MINUTES),
        dose.number(DoseField.FREQUENCY_HZ),
        dose.frequencyKind(),
        dose.number(DoseField.PULSE_WIDTH_US),
        dose.text(DoseField.INTENSITY),
        dose.number(DoseField.LIMIT_MA),
        content.placements().stream().map(this::placement).toList(),
        content.pads().stream()
            .map(
                line ->
                    new ProgramView.PadView(
                        line.code(),
                        line.perSession(),
                        padTypes.containsKey(line.code())
                            ? padTypes.get(line.code()).name()
                            : line.code()))
            .toList(),
        version.startsOn,
        content.weekdays().isEmpty()
            ? null
            : content.weekdays().stream()
                .map(weekday -> weekday.name().toLowerCase(Locale.ROOT))
                .toList(),
        dose.whole(DoseField.DAYS_PER_WEEK),
        dose.whole(DoseField.SESSIONS_PER_DAY),
        dose.whole(DoseField.WEEKS),
        fixed ? version.sessions : outlook.days() == null ? null : outlook.days().count(),
        fixed ? version.lastSessionOn : outlook.days() == null ? null : outlook.days().lastDay(),
        fixed ? version.dueOn : wanted == null ? null : wanted.day(),
        version.dueKind == null ? null : DueWords.word(version.dueKind),
        fixed ? version.sessionsLost : wanted == null ? null : wanted.sessionsLost(),
        choices(outlook),
        fixed ? version.nextAppointmentOn : outlook.nextAppointment(),
        packs == null ? null : packs.stream().mapToInt(ProgramView.Packs::now).sum(),
        packs == null
            ? null
            : packs.stream()
                .flatMap(one -> one.later().stream())
                .mapToInt(ProgramView.Later::packs)
                .sum(),
        packs,
        outlook.days() == null ? null : outlook.padChanges(),
        session == null ? null : session.seconds(),
        session == null || session.contractions() == null
            ? null
            : session.contractions().intValue(),
        session == null ? null : session.dutyPercent(),
        version.settingText,
        version.cautions,
        version.instructions,
        program.firstSessionAt,
        program.settingConfirmed(),
        program.settings.stream()
            .map(
                one ->
                    new ProgramView.Confirmation(
                        one.unitTag,
                        one.versionNumber,
                        one.settingText,
                        one.confirmedAt,
                        names.get(one.confirmedBy)))
            .toList(),
        program.pauses.stream().map(Pause::view).toList(),
        program.stoppedAt,
        program.stopReason,
        program.abandoned,
        program.hold() == null ? null : program.hold().view(),
        program.versions.stream()
            .map(
                one ->
                    new ProgramView.VersionView(
                        one.number,
                        one.state,
                        one.draftedAt,
                        names.get(one.draftedBy),
                        one.signedAt,
                        names.get(one.signedBy),
                        one.cosigned,
                        one.changeReason,
                        one.startsOn,
                        one.weeks,
                        one.dueOn))
            .toList());
  }

  /** The version in force as lending reads it. */
  SignedProgram signed(Program program, ProgramVersion version, LocalDate today) {
    List<PacksNow> now =
        version.packs.stream()
            .filter(pack -> pack.onDay == null)
            .map(pack -> new PacksNow(pack.padCode, pack.packs))
            .toList();
    return new SignedProgram(
        program.id,
        version.number,
        program.stateOn(today),
        program.patientId,
        program.locationId,
        program.therapistId,
        version.placements.stream()
            .map(one -> words(one.muscle, one.side, "en"))
            .collect(Collectors.joining(" and ")),
        version.placements.stream().map(PlacementRow::view).toList(),
        version.placements.stream().mapToInt(one -> one.channels).sum(),
        version.pads.stream().map(PadLineRow::view).toList(),
        version.startsOn,
        version.lastSessionOn,
        version.dueOn,
        version.dueKind,
        version.sessionsLost,
        now.stream().mapToInt(PacksNow::packs).sum(),
        now,
        version.packs.stream()
            .filter(pack -> pack.onDay != null)
            .map(pack -> new PacksLater(pack.padCode, pack.onDay, pack.packs))
            .toList(),
        program.firstSessionAt != null,
        program.settingConfirmed(),
        version.settingText,
        version.screeningId,
        version.padChanges == null || version.padChanges.isEmpty()
            ? List.of()
            : Arrays.stream(version.padChanges.split(",")).map(LocalDate::parse).toList());
  }

  /** Muscle and side: "front of the thigh (quadriceps), left". */
  String words(String muscle, Side side, String language) {
    String name = muscles.find(muscle).map(one -> one.words(language)).orElse(muscle);
    return side == null ? name : name + ", " + side.words(language);
  }

  static List<ProgramView.DueChoice> choices(Outlook outlook) {
    int sessions = outlook.days() == null ? 0 : outlook.days().count();
    return outlook.due().stream()
        .map(
            due ->
                new ProgramView.DueChoice(
                    DueWords.word(due.kind()),
                    DueWords.title(due.kind()),
                    due.day(),
                    DueWords.why(due, sessions),
                    due.sessionsLost()))
        .toList();
  }

  private ProgramView.PlacementView placement(Placement one) {
    return new ProgramView.PlacementView(
        one.muscle(),
        one.side(),
        one.channels(),
        one.where(),
        words(one.muscle(), one.side(), "en"));
  }

  private static List<ProgramView.Packs> plannedPacks(Outlook outlook) {
    return outlook.days() == null
        ? null
        : outlook.pads().stream()
            .map(
                line ->
                    new ProgramView.Packs(
                        line.code(),
                        line.now(),
                        line.later().stream()
                            .map(due -> new ProgramView.Later(due.day(), due.packs()))
                            .toList()))
            .toList();
  }

  private static List<ProgramView.Packs> fixedPacks(ProgramVersion version) {
    Map<String, Integer> now = new LinkedHashMap<>();
    Map<String, List<ProgramView.Later>> later = new LinkedHashMap<>();
    for (PadLineRow line : version.pads) {
      now.put(line.padCode, 0);
      later.put(line.padCode, new ArrayList<>());
    }
    for (PackRow pack : version.packs) {
      if (pack.onDay == null) {
        now.merge(pack.padCode, pack.packs, Integer::sum);
      } else {
        later
            .computeIfAbsent(pack.padCode, code -> new ArrayList<>())
            .add(new ProgramView.Later(pack.onDay, pack.packs));
      }
    }
    return now.keySet().stream()
        .map(
            code -> new ProgramView.Packs(code, now.get(code), later.getOrDefault(code, List.of())))
        .toList();
  }

  private static TreeSet<Long> people(Program program) {
    TreeSet<Long> people = new TreeSet<>();
    people.add(program.therapistId);
    for (ProgramVersion one : program.versions) {
      if (one.draftedBy != null) {
        people.add(one.draftedBy);
      }
      if (one.signedBy != null) {
        people.add(one.signedBy);
      }
    }
    program.settings.stream()
        .map(one -> one.confirmedBy)
        .filter(java.util.Objects::nonNull)
        .forEach(people::add);
    return people;
  }
}
