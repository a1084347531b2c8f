package clinic.stimshelf.shelf;

import java.util.List;

/**
 * What a unit has been through.
 *
 * @param lines newest first
 * @param own its faults
 * @param kind the faults of all units of its kind
 * @param fleet the faults of all units
 */
public record UnitHistory(
    List<HistoryLine> lines, FaultRate own, FaultRate kind, FaultRate fleet) {}
