package clinic.stimshelf.loans;

import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.NeededHere;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Who goes out with which kit. All requests of a location are matched at once, so that no kit is
 * proposed twice and the database is asked the same few questions however many wait.
 */
@ApplicationScoped
public class Departures {
  @Inject Requests requests;
  @Inject Programs programs;
  @Inject Shelf shelf;
  @Inject NeededHere needed;
  @Inject PadCatalog catalog;
  @Inject CheckOutRules rules;
  @Inject Clock clock;

  /**
   * Open requests in the order in which they are served.
   *
   * @param units the location's units as they were read
   */
  @Transactional
  public List<Departure> at(Long locationId, List<UnitView> units) {
    List<LoanRequest> queue = requests.queue(List.of(locationId));
    if (queue.isEmpty()) {
      return List.of();
    }
    Map<Long, SignedProgram> signed =
        programs.signed(queue.stream().map(row -> row.programId).toList());
    Map<String, String> connectors =
        catalog.all().stream().collect(Collectors.toMap(PadTypeView::code, PadTypeView::connector));
    Map<Long, UnitView> byId =
        units.stream().collect(Collectors.toMap(UnitView::id, Function.identity()));
    Map<Long, List<Reason>> against = shelf.whyNotReadyToLeave(byId.keySet(), clock.instant());
    Map<Long, NeededHere.LentUntil> limits = needed.lentUntil(locationId);
    Set<Long> given = new HashSet<>();
    queue.stream().map(row -> row.unitId).forEach(given::add);
    List<Departure> departures = new ArrayList<>();
    for (LoanRequest row : queue) {
      SignedProgram program = signed.get(row.programId);
      if (program == null) {
        continue;
      }
      UnitView unit =
          units.stream()
              .filter(one -> one.id().equals(row.unitId) || !given.contains(one.id()))
              .filter(one -> KitProposal.fits(one, program, connectors))
              .filter(one -> KitProposal.free(one, row.id))
              .filter(one -> against.get(one.id()).isEmpty())
              .filter(one -> !testFallsInside(one, program.dueOn()))
              .filter(one -> KitProposal.canStay(limits, one, program))
              .min(KitProposal.bestFirst(row.id))
              .orElse(null);
      if (unit != null) {
        given.add(unit.id());
      }
      departures.add(departure(row, program, unit));
    }
    return departures;
  }

  private Departure departure(LoanRequest row, SignedProgram program, UnitView unit) {
    Refusals missing = new Refusals();
    rules.program(program, missing);
    List<String> words = new ArrayList<>();
    missing.reasons().forEach(reason -> words.add(reason.message()));
    if (unit == null) {
      words.add("No suitable kit is ready.");
    } else if (!program.settingConfirmed()) {
      words.add("The setting is not confirmed on the unit.");
    }
    return new Departure(
        row.id,
        program.programId(),
        program.patientId(),
        row.neededFrom,
        program.dueOn(),
        program.muscleWords(),
        unit == null ? null : unit.tag(),
        unit == null ? null : KitProposal.why(unit, program, row.id),
        words);
  }

  private static boolean testFallsInside(UnitView unit, LocalDate dueOn) {
    return unit.nextTestOn() != null && unit.nextTestOn().isBefore(dueOn);
  }
}
