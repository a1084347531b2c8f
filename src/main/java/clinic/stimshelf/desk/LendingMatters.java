package clinic.stimshelf.desk;

import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.RequestView;
import clinic.stimshelf.loans.Requests;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.NeedsMeSource;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What lending asks of a therapist: whose unit is late, and who still waits for one. */
@ApplicationScoped
class LendingMatters implements NeedsMeSource {
  private static final int LATE = 45;
  private static final int WAITING = 50;

  @Inject Loans loans;
  @Inject Requests requests;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Contacts contacts;
  @Inject Locations locations;
  @Inject Clock clock;

  @Override
  @Transactional
  public List<Section> sections(Ask ask) {
    return List.of(late(ask), waiting(ask));
  }

  private Section late(Ask ask) {
    boolean closed =
        !clock.instant().isBefore(locations.closingTime(ask.locationId(), ask.today()));
    List<LoanView> late =
        loans.openAt(ask.locationId()).stream()
            .filter(loan -> loan.state() == LoanState.OUT)
            .filter(loan -> Today.isLate(loan.dueOn(), ask.today(), closed))
            .toList();
    List<LoanView> mine = mine(ask, late, LoanView::programId);
    Map<Long, PatientView> who = who(mine, LoanView::patientId);
    Map<Long, ContactView> last =
        contacts.lastAbout(mine.stream().map(loan -> Long.valueOf(loan.id())).toList());
    List<Line> lines = new ArrayList<>();
    for (LoanView loan : mine) {
      if (who.get(Long.valueOf(loan.patientId())).diedOn() != null) {
        continue;
      }
      long days = ChronoUnit.DAYS.between(loan.dueOn(), ask.today());
      ContactView contact = last.get(Long.valueOf(loan.id()));
      lines.add(
          new Line(
              days == 0 ? "since closing" : days == 1 ? "1 day" : days + " days",
              who.get(Long.valueOf(loan.patientId())).name(),
              loan.chartNumber(),
              "Unit " + loan.unitTag() + " was due " + Days.shortly(loan.dueOn()),
              contact == null
                  ? "Nobody has called yet."
                  : "Last contact: " + contact.outcome().words() + ".",
              Addresses.call(loan.id()),
              "Call and log"));
    }
    return new Section(LATE, "Late", lines);
  }

  private Section waiting(Ask ask) {
    List<RequestView> mine = mine(ask, requests.openAt(ask.locationId()), RequestView::programId);
    Map<Long, PatientView> who = who(mine, RequestView::patientId);
    List<Line> lines = new ArrayList<>();
    for (RequestView request : mine) {
      if (who.get(Long.valueOf(request.patientId())).diedOn() != null) {
        continue;
      }
      lines.add(
          new Line(
              "from " + Days.shortly(request.neededFrom()),
              who.get(Long.valueOf(request.patientId())).name(),
              request.chartNumber(),
              request.sureByOn() == null
                  ? "No day is sure yet"
                  : "A unit is sure by " + Days.shortly(request.sureByOn()),
              request.sureByReason(),
              Addresses.checkOut(request.programId(), null),
              "Look at check out"));
    }
    return new Section(WAITING, "Waiting for a unit", lines);
  }

  /** What belongs to the therapist's programs, or everything where nobody is named. */
  private <T> List<T> mine(Ask ask, List<T> all, Function<T, String> programId) {
    if (ask.therapistId() == null || all.isEmpty()) {
      return all;
    }
    Map<Long, SignedProgram> signed =
        programs.signed(all.stream().map(programId).map(Long::valueOf).distinct().toList());
    return all.stream()
        .filter(
            one -> {
              SignedProgram program = signed.get(Long.valueOf(programId.apply(one)));
              return program != null && ask.therapistId().equals(program.therapistId());
            })
        .toList();
  }

  private <T> Map<Long, PatientView> who(List<T> all, Function<T, String> patientId) {
    return patients.byIds(
        all.stream().map(patientId).map(Long::valueOf).collect(Collectors.toSet()));
  }
}
