package clinic.stimshelf.desk;

import clinic.stimshelf.appointments.LastVisits;
import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.NeedsMeSource;
import clinic.stimshelf.program.ProgramState;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Patients to call because their unit may be forgotten: their program was ended, they missed two
 * appointments in a row, or nobody has seen them for long. A call that was logged since then
 * settles it for as many days.
 */
@ApplicationScoped
class CallTasks implements NeedsMeSource {
  private static final int ORDER = 46;
  private static final int NO_SHOWS = 2;

  @Inject Loans loans;
  @Inject Programs programs;
  @Inject LastVisits visits;
  @Inject Patients patients;
  @Inject Contacts contacts;
  @Inject Locations locations;

  /** Somebody to call. */
  record Task(LoanView loan, SignedProgram program, PatientView patient, String when, String why) {

    public String href() {
      return Addresses.call(loan.id());
    }
  }

  @Override
  @Transactional
  public List<Section> sections(Ask ask) {
    return List.of(
        new Section(
            ORDER,
            "To call",
            at(ask.locationId()).stream()
                .filter(
                    one ->
                        ask.therapistId() == null
                            || ask.therapistId().equals(one.program().therapistId()))
                .map(
                    one ->
                        new Line(
                            one.when(),
                            one.patient().name(),
                            one.patient().chartNumber(),
                            one.why(),
                            "Unit "
                                + one.loan().unitTag()
                                + " is due "
                                + Days.shortly(one.loan().dueOn())
                                + ".",
                            Addresses.call(one.loan().id()),
                            "Call and log"))
                .toList()));
  }

  /** Everybody at the location, first due first. */
  @Transactional
  List<Task> at(Long locationId) {
    LocalDate today = locations.today(locationId);
    ZoneId zone = locations.zone(locationId);
    int days = locations.settings(locationId).whole(Setting.DAYS_WITHOUT_VISIT);
    List<LoanView> out =
        loans.openAt(locationId).stream().filter(loan -> loan.state() == LoanState.OUT).toList();
    List<Long> ids = out.stream().map(loan -> Long.valueOf(loan.patientId())).toList();
    Map<Long, PatientView> who = patients.byIds(ids);
    Map<Long, LastVisits.Last> last = visits.of(ids);
    Map<Long, SignedProgram> signed =
        programs.signed(out.stream().map(loan -> Long.valueOf(loan.programId())).toList());
    Map<Long, ContactView> called =
        contacts.lastAbout(out.stream().map(loan -> Long.valueOf(loan.id())).toList());
    List<Task> tasks = new ArrayList<>();
    for (LoanView loan : out) {
      Long patient = Long.valueOf(loan.patientId());
      SignedProgram program = signed.get(Long.valueOf(loan.programId()));
      ContactView contact = called.get(Long.valueOf(loan.id()));
      boolean settled =
          contact != null && contact.at().atZone(zone).toLocalDate().plusDays(days).isAfter(today);
      if (settled || program == null || who.get(patient).diedOn() != null) {
        continue;
      }
      LastVisits.Last visit = last.getOrDefault(patient, LastVisits.Last.NOTHING);
      LocalDate seen = loan.checkedOutAt().atZone(zone).toLocalDate();
      if (visit.cameAt() != null && visit.cameAt().atZone(zone).toLocalDate().isAfter(seen)) {
        seen = visit.cameAt().atZone(zone).toLocalDate();
      }
      long unseen = ChronoUnit.DAYS.between(seen, today);
      if (program.state() == ProgramState.STOPPED) {
        tasks.add(
            new Task(
                loan,
                program,
                who.get(patient),
                "ended",
                "The program was ended; the unit is out"));
      } else if (visit.noShowsInARow() >= NO_SHOWS) {
        tasks.add(
            new Task(
                loan,
                program,
                who.get(patient),
                visit.noShowsInARow() + " missed",
                "Did not come to the last " + visit.noShowsInARow() + " appointments"));
      } else if (unseen >= days) {
        tasks.add(
            new Task(
                loan,
                program,
                who.get(patient),
                unseen + " days",
                "No visit for " + unseen + " days with a unit at home"));
      }
    }
    return tasks;
  }
}
