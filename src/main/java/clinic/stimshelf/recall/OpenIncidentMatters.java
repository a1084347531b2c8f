package clinic.stimshelf.recall;

import clinic.stimshelf.program.NeedsMeSource;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Open incidents of a therapist's patients, with the day until which a report may be due. */
@ApplicationScoped
class OpenIncidentMatters implements NeedsMeSource {
  private static final int AFTER_RECALLS = 6;

  @Inject Incidents incidents;
  @Inject EntityManager em;

  @Override
  @Transactional
  public List<Section> sections(Ask ask) {
    List<IncidentLine> open =
        incidents.openAt(ask.locationId()).stream().filter(one -> one.patientId() != null).toList();
    Set<Long> mine = mine(ask.therapistId(), open);
    return List.of(
        new Section(
            AFTER_RECALLS,
            "Incidents",
            open.stream()
                .filter(one -> mine.contains(Long.valueOf(one.patientId())))
                .map(OpenIncidentMatters::line)
                .toList()));
  }

  private static Line line(IncidentLine one) {
    return new Line(
        "by " + Days.shortly(one.reportOn()),
        one.name(),
        one.chartNumber(),
        "Incident " + one.id() + ": " + one.kind().words(),
        one.untold() == 0
            ? "Everybody is told, or it is said why not."
            : "Of "
                + one.untold()
                + " nothing is said yet. The day is a reminder of a possible report.",
        "/incidents/" + one.id(),
        "Look at incident");
  }

  private Set<Long> mine(Long therapistId, List<IncidentLine> open) {
    Set<Long> ids = new HashSet<>();
    open.forEach(one -> ids.add(Long.valueOf(one.patientId())));
    return therapistId == null || ids.isEmpty()
        ? ids
        : new HashSet<>(
            em.createQuery(
                    "select distinct p.patientId from Program p where p.therapistId = :therapist"
                        + " and p.patientId in :ids",
                    Long.class)
                .setParameter("therapist", therapistId)
                .setParameter("ids", ids)
                .getResultList());
  }
}
