package clinic.stimshelf.recall;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.NeedsMeSource;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Whom a therapist must tell of a recall: before everything else. */
@ApplicationScoped
class OpenRecallMatters implements NeedsMeSource {
  private static final int FIRST = 5;

  @Inject RecallRows rows;
  @Inject RecallReading reading;
  @Inject Locations locations;
  @Inject EntityManager em;

  @Override
  @Transactional
  public List<Section> sections(Ask ask) {
    List<Line> lines = new ArrayList<>();
    LocationView place = locations.byId(ask.locationId());
    for (Recall recall : rows.list("state = ?1 order by begunAt", RecallState.OPEN)) {
      List<RecallPerson> people =
          reading.people(recall, place.zone()).stream()
              .filter(one -> !one.settled() && one.location().equals(place.code()))
              .toList();
      Set<Long> mine = mine(ask.therapistId(), people);
      String about = people.isEmpty() ? "" : reading.about(recall);
      for (RecallPerson one : people) {
        if (mine.contains(Long.valueOf(one.patientId()))) {
          lines.add(
              new Line(
                  one.still() == StillHas.YES ? "has it" : one.still().words(),
                  one.name(),
                  one.chartNumber(),
                  "Recalled: " + about,
                  one.contacts().isEmpty()
                      ? recall.reason + ". Nobody has tried to reach them yet."
                      : recall.reason
                          + ". Last try: "
                          + one.contacts().get(0).outcome().words()
                          + ".",
                  "/recalls/" + recall.id + "/people/" + one.patientId(),
                  "Call and log"));
        }
      }
    }
    return List.of(new Section(FIRST, "Recalled: not reached yet", lines));
  }

  /** Patients of whose programs one is the therapist's; all where nobody is named. */
  private Set<Long> mine(Long therapistId, Collection<RecallPerson> people) {
    Set<Long> ids = new HashSet<>();
    people.forEach(one -> ids.add(Long.valueOf(one.patientId())));
    if (therapistId == null || ids.isEmpty()) {
      return ids;
    }
    return new HashSet<>(
        em.createQuery(
                "select distinct p.patientId from Program p where p.therapistId = :therapist and"
                    + " p.patientId in :ids",
                Long.class)
            .setParameter("therapist", therapistId)
            .setParameter("ids", ids)
            .getResultList());
  }
}
