package clinic.stimshelf.loans;

import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.NeededHere;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Which kit should go, and why that one. */
@ApplicationScoped
class KitProposal {
  @Inject Shelf shelf;
  @Inject SureByDays sureBy;
  @Inject NeededHere needed;
  @Inject Clock clock;

  /** A kit with the reason why it, or why not the first, is proposed. */
  record Candidate(UnitView unit, String why) {}

  /**
   * Kits that could go with the program now, best first: the one set aside for it; then the one
   * with no more channels than needed, so that larger units stay for those who need them; then the
   * one charged last. Those that booked treatments need before the due day come behind all others.
   */
  List<Candidate> forProgram(SignedProgram program, Long requestId) {
    Map<Long, NeededHere.LentUntil> limits =
        needed.lentUntil(program.locationId(), program.patientId());
    List<UnitView> units =
        sureBy.suitable(program, program.locationId(), new HashMap<>()).stream()
            .filter(unit -> free(unit, requestId))
            .filter(
                unit ->
                    shelf.whyNotReadyToLeave(unit.id(), program.dueOn(), clock.instant()).isEmpty())
            .sorted(
                Comparator.comparing((UnitView unit) -> !canStay(limits, unit, program))
                    .thenComparing(bestFirst(requestId)))
            .toList();
    List<Candidate> candidates = new ArrayList<>();
    for (UnitView unit : units) {
      candidates.add(
          new Candidate(
              unit,
              canStay(limits, unit, program)
                  ? why(unit, program, requestId)
                  : "needed here before the due day. " + limits.get(unit.id()).words()));
    }
    return candidates;
  }

  static boolean canStay(
      Map<Long, NeededHere.LentUntil> limits, UnitView unit, SignedProgram program) {
    NeededHere.LentUntil limit = limits.get(unit.id());
    return limit == null || limit.allows(program.dueOn());
  }

  static Comparator<UnitView> bestFirst(Long requestId) {
    return Comparator.comparing((UnitView unit) -> !reservedFor(unit, requestId))
        .thenComparing(UnitView::channels)
        .thenComparing(
            UnitView::chargedAt, Comparator.nullsLast(Comparator.<Instant>reverseOrder()))
        .thenComparing(UnitView::tag);
  }

  /** Whether the unit has the channels and takes every pad of the program. */
  static boolean fits(UnitView unit, SignedProgram program, Map<String, String> connectors) {
    return unit.channels() >= program.channels()
        && program.pads().stream()
            .allMatch(line -> unit.connector().equals(connectors.get(line.code())));
  }

  static boolean free(UnitView unit, Long requestId) {
    return unit.state() == UnitState.READY || reservedFor(unit, requestId);
  }

  private static boolean reservedFor(UnitView unit, Long requestId) {
    return unit.state() == UnitState.RESERVED
        && unit.reservedFor() == UseKind.LOAN
        && requestId != null
        && requestId.equals(unit.reservedId());
  }

  static String why(UnitView unit, SignedProgram program, Long requestId) {
    if (reservedFor(unit, requestId)) {
      return "set aside for this request";
    }
    return unit.channels() == program.channels()
        ? "ready, and has just the channels that are needed"
        : "ready; it has " + unit.channels() + " channels, " + program.channels() + " are needed";
  }
}
