package clinic.stimshelf.loans;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.program.ProgramChanged;
import clinic.stimshelf.program.Programs;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;

/** Loans and requests change together with the program they serve. */
@ApplicationScoped
class FollowsProgram {
  @Inject LoanRows loans;
  @Inject LoanRequests requests;
  @Inject LoanTurns turns;
  @Inject Programs programs;
  @Inject EventTimes times;

  void changed(@Observes ProgramChanged change) {
    programs
        .signed(change.programId())
        .ifPresent(
            program -> {
              loans
                  .find("openProgramId", program.programId())
                  .firstResultOptional()
                  .ifPresent(loan -> turns.follow(loan, program, times.now()));
              requests
                  .find("openProgramId", program.programId())
                  .firstResultOptional()
                  .ifPresent(
                      request -> {
                        request.channels = program.channels();
                        if (request.neededFrom.isBefore(program.startsOn())) {
                          request.neededFrom = program.startsOn();
                        }
                      });
            });
  }
}
