package clinic.stimshelf.loans;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.GivenPacks;
import clinic.stimshelf.pads.Lots;
import clinic.stimshelf.pads.NewPadSet;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.program.PadLine;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** The pads a patient wears while a unit is at home. */
@ApplicationScoped
public class PadsWorn {
  @Inject Loans loans;
  @Inject PadSets sets;
  @Inject PadStock stock;
  @Inject Lots lots;
  @Inject Programs programs;
  @Inject Locations locations;

  /**
   * How a set ended, and what came after it.
   *
   * @param day on which it ended
   * @param lotId of the next set, or {@code null} if nobody knows
   * @param next whether the patient opened a next one
   */
  public record Ending(
      PadOutcome outcome, LocalDate day, String reason, Long lotId, boolean next) {}

  /** Nobody tells of the first opening: it is taken to follow the packs, on the first day. */
  void begin(SignedProgram program, Collection<PackLine> packs, Happened happened) {
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(program.locationId()));
    Set<String> worn =
        sets.inUse(program.patientId(), program.programId()).stream()
            .map(PadSetView::code)
            .collect(Collectors.toSet());
    for (PadLine line : program.pads()) {
      packs.stream()
          .filter(pack -> !worn.contains(line.code()))
          .filter(pack -> lots.codes(List.of(pack)).containsKey(line.code()))
          .findFirst()
          .ifPresent(
              pack ->
                  sets.openAssumed(
                      new NewPadSet(
                          program.patientId(),
                          program.programId(),
                          program.locationId(),
                          line.code(),
                          pack.lotId(),
                          line.perSession(),
                          null,
                          day.isBefore(program.startsOn()) ? program.startsOn() : day),
                      happened));
    }
  }

  /** The sets in use with a loan. */
  @Transactional
  public List<PadSetView> inUse(Long loanId) {
    Loan loan = loans.row(loanId);
    return sets.inUse(loan.patientId, loan.programId);
  }

  /**
   * Somebody tells that a set ended.
   *
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public void ended(Long loanId, Long setId, Ending told, Happened happened) {
    Loan loan = loans.row(loanId);
    PadSetView set = sets.byId(setId);
    if (!loan.patientId.equals(set.patientId()) || !loan.programId.equals(set.programId())) {
      throw new NotFound("There is no such pad set with this loan.");
    }
    if (told.day() != null && told.day().isAfter(locations.today(loan.locationId))) {
      throw new Refusal("ended-on", "That day lies in the future.", "Tell once it has ended.");
    }
    if (told.next()) {
      sets.change(setId, told.outcome(), told.day(), told.reason(), told.lotId(), happened);
    } else {
      sets.close(setId, told.outcome(), told.day(), told.reason(), happened);
    }
  }

  /** The patient opened a set although none is on record. */
  @Transactional
  public void opened(Long loanId, String code, Long lotId, LocalDate day, Happened happened) {
    Loan loan = loans.row(loanId);
    PadLine line =
        programs.signed(loan.programId).stream()
            .flatMap(program -> program.pads().stream())
            .filter(one -> one.code().equals(code))
            .findFirst()
            .orElseThrow(() -> new Refusal("pads", "The program does not use “" + code + "”."));
    if (day == null || day.isAfter(locations.today(loan.locationId))) {
      throw new Refusal("opened-on", "Say on which day up to today the pouch was opened.");
    }
    sets.open(
        new NewPadSet(
            loan.patientId,
            loan.programId,
            loan.locationId,
            code,
            lotId,
            line.perSession(),
            null,
            day),
        happened);
  }

  /** Lots of a type that went with a loan, the last given first proposed. */
  List<GivenPacks> lotsOf(Long loanId, String code) {
    return stock.givenWith(loanId).stream().filter(pack -> pack.code().equals(code)).toList();
  }
}
