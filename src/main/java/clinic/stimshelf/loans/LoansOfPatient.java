package clinic.stimshelf.loans;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Matter;
import clinic.stimshelf.people.PatientMatters;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.List;

/** A patient's loans on the patient's page. */
@ApplicationScoped
class LoansOfPatient implements PatientMatters {
  @Inject Loans loans;
  @Inject Locations locations;

  @Override
  public int order() {
    return 20;
  }

  @Override
  public String heading() {
    return "Loans";
  }

  @Override
  @Transactional
  public List<Matter> of(Long patientId) {
    return loans.ofPatient(patientId).stream().map(this::matter).toList();
  }

  private Matter matter(LoanView loan) {
    LocalDate today = locations.today(locations.byCode(loan.location()).id());
    boolean late = loan.state() == LoanState.OUT && loan.dueOn().isBefore(today);
    String words =
        switch (loan.state()) {
          case OUT -> loan.unitTag() + ", due " + Days.shortly(loan.dueOn());
          case MISSING -> loan.unitTag() + ", missing";
          case RETURNED -> loan.unitTag() + ", came back";
          case LOST -> loan.unitTag() + ", never came back";
          case VOID -> loan.unitTag() + ", entered by mistake";
        };
    return new Matter(
        "Loan",
        words,
        "/loans/" + loan.id(),
        late ? "late" : loan.state() == LoanState.OUT ? "on-loan" : loan.state().word());
  }
}
