package clinic.stimshelf.recall;

import clinic.stimshelf.pads.LotKept;
import clinic.stimshelf.shelf.UnitKept;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.Optional;

/** What an open recall or incident is about stays where nobody takes it. */
@ApplicationScoped
class KeptByRecall implements UnitKept, LotKept {
  @Inject RecallRows rows;
  @Inject IncidentRows incidents;

  @Override
  @Transactional
  public Optional<String> why(Long unitId, String serial, Long kindId) {
    return rows.list("state", RecallState.OPEN).stream()
        .filter(row -> row.names(unitId, serial, kindId))
        .findFirst()
        .map(row -> "Recall " + row.id + " of this unit is open.")
        .or(
            () ->
                incidents
                    .find("state = ?1 and unitId = ?2", RecallState.OPEN, unitId)
                    .firstResultOptional()
                    .map(row -> "Incident " + row.id + " with this unit is open."));
  }

  @Override
  @Transactional
  public Optional<String> why(Long lotId) {
    return rows.find("state = ?1 and lotId = ?2", RecallState.OPEN, lotId)
        .firstResultOptional()
        .map(row -> "Recall " + row.id + " of this lot is open.");
  }
}
