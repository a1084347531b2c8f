package clinic.stimshelf.desk;

import clinic.stimshelf.appointments.ComingVisits;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Units with the families of patients who died: a manager sees to them, nothing is sent. */
@ApplicationScoped
class QuietTasks {
  @Inject Loans loans;
  @Inject ComingVisits visits;
  @Inject Patients patients;

  /**
   * A unit to be brought home without automatic words.
   *
   * @param booked appointments that still stand
   */
  record Task(
      String loanId,
      String unitTag,
      String patientId,
      String name,
      String chartNumber,
      LocalDate diedOn,
      long booked) {}

  @Transactional
  List<Task> at(Long locationId) {
    List<LoanView> open = loans.openAt(locationId);
    Map<Long, PatientView> dead =
        patients
            .byIds(open.stream().map(loan -> Long.valueOf(loan.patientId())).toList())
            .entrySet()
            .stream()
            .filter(one -> one.getValue().diedOn() != null)
            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    Map<Long, Long> booked =
        visits.of(dead.keySet()).stream()
            .collect(Collectors.groupingBy(ComingVisits.Coming::patientId, Collectors.counting()));
    return open.stream()
        .filter(loan -> dead.containsKey(Long.valueOf(loan.patientId())))
        .map(
            loan -> {
              PatientView patient = dead.get(Long.valueOf(loan.patientId()));
              return new Task(
                  loan.id(),
                  loan.unitTag(),
                  loan.patientId(),
                  patient.name(),
                  patient.chartNumber(),
                  patient.diedOn(),
                  booked.getOrDefault(patient.id(), 0L));
            })
        .toList();
  }
}
