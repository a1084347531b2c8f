package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.PadLine;
import clinic.stimshelf.calc.days.PadPlan;
import clinic.stimshelf.calc.days.SessionDays;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** When running programs open their next pads, from what the sets in use have really served. */
@ApplicationScoped
public class PadsAhead {
  @Inject ProgramRows rows;
  @Inject PadSets sets;
  @Inject Locations locations;

  /**
   * What is to come of one pad line.
   *
   * @param openings from today on
   * @param packsOpened packs that the sets opened so far took, those expected included
   */
  record Ahead(List<PadPlan.Opening> openings, int packsOpened) {

    /** Packs that leave the cupboard, by day: what is at home is opened first. */
    List<PadPlan.Due> toDraw(int atHome) {
      List<PadPlan.Due> due = new ArrayList<>();
      int left = atHome;
      for (PadPlan.Opening opening : openings) {
        int home = Math.min(left, opening.packsOpened());
        left -= home;
        if (opening.packsOpened() > home) {
          due.add(new PadPlan.Due(opening.day(), opening.packsOpened() - home));
        }
      }
      return due;
    }
  }

  /**
   * The next change of pads of a running program.
   *
   * @param day when it is to be expected now, or {@code null} if the pads last to the end
   * @param signedDay when the signed plan had the next one, or {@code null} if it had none left
   */
  public record Change(String code, LocalDate day, LocalDate signedDay) {
    public boolean moved() {
      return day == null ? signedDay != null : !day.equals(signedDay);
    }
  }

  /** The next change of each pad line that is in use; empty unless the program is running. */
  @Transactional
  public List<Change> next(Long programId) {
    Program program = rows.findById(programId);
    if (program == null || program.signed() == null || program.state != ProgramState.SIGNED) {
      return List.of();
    }
    LocalDate today = locations.today(program.locationId);
    Map<String, List<PadPlan.Opening>> signed = new HashMap<>();
    for (PadLineRow line : program.signed().pads) {
      line(line)
          .ifPresent(
              facts ->
                  signed.put(
                      line.padCode, PadPlan.of(days(program, program.signed()), facts).openings()));
    }
    List<Change> changes = new ArrayList<>();
    of(List.of(program))
        .getOrDefault(programId, Map.of())
        .forEach(
            (code, ahead) ->
                changes.add(
                    new Change(
                        code,
                        ahead.openings().isEmpty() ? null : ahead.openings().get(0).day(),
                        signed.getOrDefault(code, List.of()).stream()
                            .skip(1)
                            .map(PadPlan.Opening::day)
                            .filter(day -> !day.isBefore(today))
                            .findFirst()
                            .orElse(null))));
    return changes;
  }

  /** By program and pad code, for those with a set in use. */
  Map<Long, Map<String, Ahead>> of(Collection<Program> running) {
    List<Long> ids = running.stream().map(program -> program.id).toList();
    Map<Long, Map<String, PadSetView>> inUse = new HashMap<>();
    for (PadSetView set : sets.inUse(ids)) {
      inUse.computeIfAbsent(set.programId(), p -> new HashMap<>()).put(set.code(), set);
    }
    Map<Long, Map<String, Ahead>> ahead = new HashMap<>();
    if (inUse.isEmpty()) {
      return ahead;
    }
    Map<Long, Map<String, Integer>> opened = sets.opened(inUse.keySet());
    for (Program program : running) {
      Map<String, PadSetView> ofProgram = inUse.getOrDefault(program.id, Map.of());
      ProgramVersion version = program.signed();
      if (ofProgram.isEmpty() || version == null) {
        continue;
      }
      SessionDays days = days(program, version);
      LocalDate today = locations.today(program.locationId);
      for (PadLineRow row : version.pads) {
        PadSetView set = ofProgram.get(row.padCode);
        line(row)
            .filter(facts -> set != null)
            .ifPresent(
                facts ->
                    ahead
                        .computeIfAbsent(program.id, p -> new HashMap<>())
                        .put(
                            row.padCode,
                            ahead(
                                days,
                                facts,
                                today,
                                set,
                                opened
                                    .getOrDefault(program.id, Map.of())
                                    .getOrDefault(row.padCode, 1))));
      }
    }
    return ahead;
  }

  /** Changes that should have taken place, and nobody told of, are taken as done. */
  private static Ahead ahead(
      SessionDays days, PadLine line, LocalDate today, PadSetView set, int setsOpened) {
    int untold = set.allUses() / line.usesPerSet();
    int used = set.allUses() % line.usesPerSet();
    LocalDate openedOn = untold > 0 ? today : set.openedOn();
    if (untold > 0 && used == 0) {
      // The last of them is just worn: its change is still to come.
      untold--;
      used = line.usesPerSet();
    }
    if (ChronoUnit.DAYS.between(openedOn, today) > line.openDays()) {
      untold++;
      used = 0;
      openedOn = today;
    }
    int pads = (setsOpened + untold) * line.padsPerSession();
    int packs = (pads + line.padsPerPack() - 1) / line.padsPerPack();
    return new Ahead(
        PadPlan.ahead(
            days,
            line,
            today,
            new PadPlan.InUse(used, openedOn, packs * line.padsPerPack() - pads)),
        packs);
  }

  private static Optional<PadLine> line(PadLineRow row) {
    return row.padsPerPack == null || row.usesPerSet == null || row.openDays == null
        ? Optional.empty()
        : Optional.of(new PadLine(row.perSession, row.padsPerPack, row.usesPerSet, row.openDays));
  }

  private static SessionDays days(Program program, ProgramVersion version) {
    Content content = Writing.read(version);
    return SessionDays.of(
        version.startsOn,
        version.weeks,
        content.rhythm(),
        version.sessionsPerDay,
        program.pauses.stream().map(Pause::span).toList());
  }
}
