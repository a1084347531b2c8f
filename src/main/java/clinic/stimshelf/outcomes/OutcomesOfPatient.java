package clinic.stimshelf.outcomes;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Matter;
import clinic.stimshelf.people.PatientMatters;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.NextSteps;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.ZoneId;
import java.util.List;

/** The newest measurements on a patient's page, and the way there from a program. */
@ApplicationScoped
class OutcomesOfPatient implements PatientMatters, NextSteps {
  private static final int SHOWN = 3;

  @Inject Outcomes outcomes;
  @Inject Patients patients;
  @Inject Locations locations;

  @Override
  public int order() {
    return 25;
  }

  @Override
  public String heading() {
    return "Outcomes";
  }

  @Override
  public Matter start(Long patientId) {
    return new Matter("Measure outcome", "", "/patients/" + patientId + "/outcomes", "");
  }

  @Override
  @Transactional
  public List<Matter> of(Long patientId) {
    ZoneId zone = locations.zone(patients.byId(patientId).locationId());
    return outcomes.of(patientId).stream()
        .filter(one -> one.voidedAt() == null)
        .limit(SHOWN)
        .map(
            one ->
                new Matter(
                    "Outcome",
                    Days.shortly(one.happenedAt().atZone(zone).toLocalDate())
                        + ": "
                        + one.measure().words()
                        + ", "
                        + one.what()
                        + ", "
                        + one.result(),
                    "/patients/" + patientId + "/outcomes",
                    ""))
        .toList();
  }

  @Override
  public List<Step> of(SignedProgram program) {
    return List.of(
        new Step(
            "Measure outcome",
            "/patients/" + program.patientId() + "/outcomes?program=" + program.programId()));
  }
}
