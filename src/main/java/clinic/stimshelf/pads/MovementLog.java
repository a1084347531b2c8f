package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The ledger as people and scripts read it. */
@ApplicationScoped
public class MovementLog {
  @Inject EntityManager em;
  @Inject Locations locations;

  /**
   * Which lines are wanted; {@code null} stands for any.
   *
   * @param from the first moment
   * @param to the moment after the last
   */
  public record Wanted(
      Collection<Long> locationIds,
      String code,
      Long lotId,
      Long loanId,
      MovementReason reason,
      Instant from,
      Instant to) {

    public static Wanted at(Collection<Long> locationIds) {
      return new Wanted(locationIds, null, null, null, null, null, null);
    }
  }

  /** Lines of the ledger, the newest event first. */
  @Transactional
  public Page<MovementView> list(Wanted wanted, Paging paging) {
    Map<String, Object> values = new HashMap<>();
    StringBuilder where = new StringBuilder(" where l.id = m.lotId and m.locationId in :at");
    values.put("at", wanted.locationIds());
    and(where, values, "l.type.code = :code", "code", wanted.code());
    and(where, values, "m.lotId = :lot", "lot", wanted.lotId());
    and(where, values, "m.loanId = :loan", "loan", wanted.loanId());
    and(where, values, "m.reason = :reason", "reason", wanted.reason());
    and(where, values, "m.happenedAt >= :from", "from", wanted.from());
    and(where, values, "m.happenedAt < :to", "to", wanted.to());
    TypedQuery<Long> counting =
        em.createQuery("select count(m) from StockMovement m, PadLot l" + where, Long.class);
    values.forEach(counting::setParameter);
    TypedQuery<Object[]> query =
        em.createQuery(
            "select m, l.number, l.type.code, (select count(r) from StockMovement r where"
                + " r.reversesId = m.id) from StockMovement m, PadLot l"
                + where
                + " order by m.happenedAt desc, m.id desc",
            Object[].class);
    values.forEach(query::setParameter);
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    List<MovementView> items =
        query
            .setFirstResult(paging.offset())
            .setMaxResults(paging.size())
            .getResultStream()
            .map(row -> view(row, codes))
            .toList();
    return new Page<>(items, paging.page(), paging.size(), counting.getSingleResult());
  }

  /** The lines with these numbers, in the order of the numbers. */
  @Transactional
  public List<MovementView> byIds(List<Long> ids) {
    if (ids.isEmpty()) {
      return List.of();
    }
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    Map<String, MovementView> found =
        em.createQuery(
                "select m, l.number, l.type.code, (select count(r) from StockMovement r where"
                    + " r.reversesId = m.id) from StockMovement m, PadLot l where l.id = m.lotId"
                    + " and m.id in :ids",
                Object[].class)
            .setParameter("ids", ids)
            .getResultStream()
            .map(row -> view(row, codes))
            .collect(Collectors.toMap(MovementView::id, line -> line));
    return ids.stream().map(id -> found.get(String.valueOf(id))).toList();
  }

  /**
   * Number of the location a line belongs to.
   *
   * @throws NotFound if there is no such line
   */
  @Transactional
  public Long locationOf(Long movementId) {
    StockMovement line = em.find(StockMovement.class, movementId);
    if (line == null) {
      throw new NotFound("There is no line with this number in the ledger.");
    }
    return line.locationId;
  }

  private static void and(
      StringBuilder where, Map<String, Object> values, String text, String name, Object value) {
    if (value != null) {
      where.append(" and ").append(text);
      values.put(name, value);
    }
  }

  private static MovementView view(Object[] row, Map<Long, String> codes) {
    StockMovement line = (StockMovement) row[0];
    return new MovementView(
        String.valueOf(line.id),
        line.happenedAt,
        line.recordedAt,
        line.staffName,
        (String) row[2],
        (String) row[1],
        String.valueOf(line.lotId),
        codes.get(line.locationId),
        line.packs,
        line.reason,
        line.drawerReason,
        line.note,
        line.laterLotReason,
        text(line.loanId),
        text(line.patientId),
        text(line.reversesId),
        (Long) row[3] > 0,
        line.lateReason);
  }

  private static String text(Long number) {
    return number == null ? null : String.valueOf(number);
  }
}
