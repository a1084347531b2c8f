package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import java.time.LocalDate;
import java.util.List;

/**
 * The days of a loan from which its messages follow.
 *
 * @param open days on which the loan's location is open
 * @param checkedOutOn local day of the check out
 * @param startsOn first session day
 * @param lastSessionOn last session day
 * @param padChanges days on which the patient opens a fresh set after the first
 */
public record LoanFacts(
    Long locationId,
    OpenDays open,
    LocalDate checkedOutOn,
    LocalDate startsOn,
    LocalDate lastSessionOn,
    LocalDate dueOn,
    List<LocalDate> padChanges) {}
