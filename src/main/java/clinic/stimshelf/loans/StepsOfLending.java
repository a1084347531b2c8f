package clinic.stimshelf.loans;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.NextSteps;
import clinic.stimshelf.program.ProgramState;
import clinic.stimshelf.program.SignedProgram;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.List;

/** What lending does next for a signed program: ask for a unit, check it out, look at the loan. */
@ApplicationScoped
class StepsOfLending implements NextSteps {
  @Inject LoanRows loans;
  @Inject LoanRequests requests;
  @Inject Locations locations;

  @Override
  @Transactional
  public List<Step> of(SignedProgram program) {
    Loan loan = loans.find("openProgramId", program.programId()).firstResult();
    if (loan != null) {
      return List.of(new Step("Look at the loan", "/loans/" + loan.id));
    }
    if (program.state() == ProgramState.STOPPED) {
      return List.of();
    }
    LoanRequest request = requests.find("openProgramId", program.programId()).firstResult();
    if (request == null) {
      if (program.lastSessionOn().isBefore(locations.today(program.locationId()))) {
        return List.of();
      }
      return List.of(new Step("Ask for a unit", "/requests/new?program=" + program.programId()));
    }
    return List.of(
        new Step("Check out unit", "/check-out?program=" + program.programId()),
        new Step("Look at the request", "/requests/" + request.id));
  }
}
