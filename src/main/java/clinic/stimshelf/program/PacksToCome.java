package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.PadLine;
import clinic.stimshelf.calc.days.PadPlan;
import clinic.stimshelf.calc.days.SessionDays;
import clinic.stimshelf.calc.days.WeekRhythm;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.DatedDemand;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Packs that signed and running programs still draw from the cupboard, dated. What a patient has or
 * is owed by now counts against the earliest packs first, so that none is expected twice. Once sets
 * are in use, their real counts move the days.
 */
@ApplicationScoped
class PacksToCome implements DatedDemand {
  @Inject ProgramRows rows;
  @Inject SessionLogs sessions;
  @Inject PacksGiven given;
  @Inject Patients patients;
  @Inject PadsAhead ahead;
  @Inject PadFacts padFacts;
  @Inject Locations locations;

  @Override
  @Transactional
  public List<DatedPacks> dated(Long locationId, LocalDate from, LocalDate to) {
    LocalDate today = locations.today(locationId);
    List<Program> running = rows.running(locationId, today);
    Map<Long, Map<String, Integer>> had = given.given(running.stream().map(p -> p.id).toList());
    Map<Long, PatientView> people =
        patients.byIds(running.stream().map(program -> program.patientId).toList());
    Map<Long, Adherence> followed = sessions.adherence(running, Map.of(locationId, today));
    double unknown = locations.settings(locationId).number(Setting.ADHERENCE_WITHOUT_HISTORY);
    Map<Long, Map<String, PadsAhead.Ahead>> moved = ahead.of(running);
    List<DatedPacks> dated = new ArrayList<>();
    for (Program program : running) {
      Map<String, PadsAhead.Ahead> known = moved.getOrDefault(program.id, Map.of());
      Map<String, Integer> left = new HashMap<>(had.getOrDefault(program.id, Map.of()));
      ProgramVersion version = program.signed();
      String label =
          people.get(program.patientId).name() + ", program from " + Days.full(version.startsOn);
      double chance = chance(followed.get(program.id), unknown);
      for (Map.Entry<String, PadsAhead.Ahead> line : known.entrySet()) {
        int atHome = left.getOrDefault(line.getKey(), 0) - line.getValue().packsOpened();
        for (PadPlan.Due due : line.getValue().toDraw(Math.max(0, atHome))) {
          if (!due.day().isAfter(to)) {
            dated.add(
                new DatedPacks(
                    line.getKey(),
                    due.day(),
                    due.packs(),
                    chance,
                    label,
                    false,
                    DatedPacks.Kind.PROGRAM));
          }
        }
      }
      for (PackRow pack : inOrder(version)) {
        if (known.containsKey(pack.padCode)) {
          continue;
        }
        int had1 = Math.min(left.getOrDefault(pack.padCode, 0), pack.packs);
        left.merge(pack.padCode, -had1, Integer::sum);
        LocalDate on = pack.onDay == null ? version.startsOn : pack.onDay;
        if (pack.packs > had1 && !on.isAfter(to)) {
          dated.add(
              new DatedPacks(
                  pack.padCode,
                  on.isBefore(from) ? from : on,
                  pack.packs - had1,
                  pack.onDay == null ? 1 : chance,
                  label,
                  false,
                  DatedPacks.Kind.PROGRAM));
        }
      }
    }
    written(locationId, today, to, dated);
    return dated;
  }

  /** Programs that are written and not signed yet, as for a surgery on the books: known starts. */
  private void written(Long locationId, LocalDate today, LocalDate to, List<DatedPacks> dated) {
    List<Program> drafts = rows.written(locationId, today, to);
    if (drafts.isEmpty()) {
      return;
    }
    Map<Long, PatientView> people =
        patients.byIds(drafts.stream().map(draft -> draft.patientId).toList());
    Map<String, PadFact> facts = padFacts.planned(locationId);
    double later = locations.settings(locationId).number(Setting.ADHERENCE_WITHOUT_HISTORY);
    int spares = locations.settings(locationId).whole(Setting.SPARE_SETS);
    for (Program draft : drafts) {
      ProgramVersion version = draft.latest();
      String label =
          people.get(draft.patientId).name() + ", program from " + Days.full(version.startsOn);
      for (PadLineRow line : version.pads) {
        PadPlan plan = plan(version, line, facts.get(line.padCode));
        dated.add(
            new DatedPacks(
                line.padCode,
                version.startsOn,
                plan == null ? 1 : plan.packsNow(version.startsOn, spares),
                1,
                label,
                false,
                DatedPacks.Kind.SURGERY));
        if (plan != null) {
          for (PadPlan.Due due : plan.packsLater(version.startsOn, spares)) {
            if (!due.day().isAfter(to)) {
              dated.add(
                  new DatedPacks(
                      line.padCode,
                      due.day(),
                      due.packs(),
                      later,
                      label,
                      false,
                      DatedPacks.Kind.PROGRAM));
            }
          }
        }
      }
    }
  }

  /** The openings of a draft, or {@code null} while it has blanks. */
  private static PadPlan plan(ProgramVersion version, PadLineRow line, PadFact fact) {
    WeekRhythm rhythm = Writing.read(version).rhythm();
    if (fact == null
        || rhythm == null
        || version.weeks == null
        || version.sessionsPerDay == null
        || line.perSession < 1) {
      return null;
    }
    return PadPlan.of(
        SessionDays.of(version.startsOn, version.weeks, rhythm, version.sessionsPerDay),
        new PadLine(line.perSession, fact.padsPerPack(), fact.usesPerSet(), fact.openDays()));
  }

  private static List<PackRow> inOrder(ProgramVersion version) {
    return version.packs.stream()
        .sorted(
            Comparator.comparing(
                pack -> pack.onDay, Comparator.nullsFirst(Comparator.naturalOrder())))
        .toList();
  }

  /** Later packs are drawn as the program is followed; before it was, as the location expects. */
  private static double chance(Adherence followed, double unknown) {
    return followed == null ? unknown : Math.max(0.05, followed.shareOfKnown(unknown));
  }
}
