package clinic.stimshelf.desk;

import clinic.stimshelf.appointments.ComingVisits;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Units at home that must be set anew, with the visit at which that can be done. */
@ApplicationScoped
class SettingsToDo {
  @Inject Loans loans;
  @Inject ComingVisits visits;
  @Inject Patients patients;

  /**
   * A unit to be set.
   *
   * @param visitAt the next visit, or {@code null}: the patient is asked to bring the unit in
   */
  record Line(
      String unitTag,
      String programId,
      String name,
      String chartNumber,
      int version,
      Instant visitAt) {}

  @Transactional
  List<Line> at(Long locationId) {
    List<LoanView> open =
        loans.openAt(locationId).stream().filter(loan -> loan.settingGap() != null).toList();
    List<Long> ids = open.stream().map(loan -> Long.valueOf(loan.patientId())).toList();
    Map<Long, PatientView> who = patients.byIds(ids);
    Map<Long, Instant> next = new HashMap<>();
    visits.of(ids).forEach(visit -> next.putIfAbsent(visit.patientId(), visit.startsAt()));
    return open.stream()
        .filter(loan -> who.get(Long.valueOf(loan.patientId())).diedOn() == null)
        .map(
            loan ->
                new Line(
                    loan.unitTag(),
                    loan.programId(),
                    who.get(Long.valueOf(loan.patientId())).name(),
                    loan.chartNumber(),
                    loan.settingGap().version(),
                    next.get(Long.valueOf(loan.patientId()))))
        .toList();
  }
}
