package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.desk.ScanAnswer.Action;
import clinic.stimshelf.desk.ScanAnswer.Match;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.Requests;
import clinic.stimshelf.loans.Waiting;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What can be done with a patient whose chart number was scanned or whose name was typed. */
@ApplicationScoped
class ScannedPeople {
  static final int SHOWN = 20;

  @Inject Patients patients;
  @Inject Requests requests;
  @Inject Loans loans;
  @Inject SignedIn signedIn;

  Optional<ScanAnswer> byChart(String text) {
    return patients.byChart(text).map(this::answer);
  }

  /** Patients by beginnings of names or birth date. */
  List<Match> named(String text) {
    try {
      return patients.find(text, Paging.of(0, SHOWN)).items().stream()
          .map(ScannedPeople::match)
          .toList();
    } catch (Malformed nothingToLookFor) {
      return List.of();
    }
  }

  private ScanAnswer answer(PatientView patient) {
    List<Waiting> waiting = requests.waitingOf(patient.id());
    List<LoanView> out =
        loans.ofPatient(patient.id()).stream().filter(loan -> loan.state().open()).toList();
    List<Action> actions = new ArrayList<>();
    for (Waiting one : waiting) {
      actions.add(
          new Action(
              "check-out",
              one.unitTag() == null ? "Check out unit" : "Check out unit " + one.unitTag(),
              Addresses.checkOut(one.programId(), null)));
    }
    for (LoanView loan : out) {
      actions.add(
          new Action("check-in", "Check in unit " + loan.unitTag(), Addresses.checkIn(loan.id())));
      actions.add(
          new Action("loan", "Extend or swap " + loan.unitTag(), Addresses.loan(loan.id())));
    }
    actions.add(new Action("patient", "Look at the patient", Addresses.patient(patient.id())));
    // A therapist who scans a chart wants the person; whoever stands at the counter, the check out.
    boolean only = waiting.size() == 1 && out.isEmpty() && !signedIn.has(Roles.THERAPIST);
    return new ScanAnswer(
        ScanKind.PATIENT,
        null,
        List.of(match(patient)),
        actions,
        waiting.isEmpty() && out.isEmpty()
            ? List.of("No unit is asked for or out. A therapist asks for one on a signed program.")
            : List.of(),
        only ? actions.get(0).page() : null);
  }

  private static Match match(PatientView patient) {
    return new Match(
        "patient",
        String.valueOf(patient.id()),
        "chart " + patient.chartNumber(),
        patient.name(),
        "born " + Days.full(patient.birthDate()),
        null,
        Addresses.patient(patient.id()));
  }
}
