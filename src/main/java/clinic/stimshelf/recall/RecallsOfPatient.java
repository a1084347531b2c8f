package clinic.stimshelf.recall;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Matter;
import clinic.stimshelf.people.PatientMatters;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.List;

/** Open recalls on the page of a patient whom they touched. */
@ApplicationScoped
class RecallsOfPatient implements PatientMatters {
  @Inject RecallRows rows;
  @Inject RecallReading reading;
  @Inject Patients patients;
  @Inject Locations locations;

  @Override
  public int order() {
    return 5;
  }

  @Override
  public String heading() {
    return "Recalls";
  }

  @Override
  public boolean onlyIfAny() {
    return true;
  }

  @Override
  @Transactional
  public List<Matter> of(Long patientId) {
    List<Recall> open = rows.list("state = ?1 order by begunAt", RecallState.OPEN);
    if (open.isEmpty()) {
      return List.of();
    }
    var zone = locations.zone(patients.byId(patientId).locationId());
    String id = String.valueOf(patientId);
    return open.stream()
        .flatMap(
            recall ->
                reading.people(recall, zone).stream()
                    .filter(one -> one.patientId().equals(id))
                    .map(
                        one ->
                            new Matter(
                                "Recall",
                                reading.about(recall) + ": " + one.still().words(),
                                "/recalls/" + recall.id + "/people/" + id,
                                one.standing())))
        .toList();
  }
}
