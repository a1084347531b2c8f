package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/** Lots of pads: where they are, who has them, and whether they may leave. */
@Retried
@ApplicationScoped
public class PadLots {
  /** What was taken from a drawer longer ago is used up; common practice, no source. */
  private static final Duration DRAWER = Duration.ofDays(60);

  @Inject PadLotRows rows;
  @Inject Balances balances;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EntityManager em;
  @Inject Clock clock;
  @Inject @Any Instance<LoanWords> loanWords;
  @Inject @Any Instance<LotKept> keepers;

  /**
   * Lots with packs at the locations, and lots held back, first expiry first.
   *
   * @param padCode only of this type, or {@code null} for all
   */
  @Transactional
  public List<LotStock> list(String padCode, Collection<Long> locationIds) {
    return stocks(
        em.createQuery(
                "select l.id from PadLot l where (:code is null or l.type.code = :code) and"
                    + " (l.state <> :free or exists (select 1 from StockBalance b where"
                    + " b.lotId = l.id and b.locationId in :at and b.packs > 0))",
                Long.class)
            .setParameter("code", padCode)
            .setParameter("free", LotState.FREE)
            .setParameter("at", locationIds)
            .getResultList(),
        locationIds);
  }

  /**
   * One lot and what the locations have of it.
   *
   * @throws NotFound if there is none
   */
  @Transactional
  public LotStock byId(Long lotId, Collection<Long> locationIds) {
    return stocks(List.of(lotId), locationIds).stream()
        .findFirst()
        .orElseThrow(() -> new NotFound("There is no lot with this number."));
  }

  /** Lots of any type with this number, for somebody who scans or types it. */
  @Transactional
  public List<LotFactsView> byNumber(String number) {
    return em.createQuery(
            "select new clinic.stimshelf.pads.LotFactsView(l.id, l.type.code, l.number,"
                + " l.expiresOn, l.state) from PadLot l where l.number = :number order by l.id",
            LotFactsView.class)
        .setParameter("number", number.strip())
        .getResultList();
  }

  private List<LotStock> stocks(List<Long> lotIds, Collection<Long> locationIds) {
    if (lotIds.isEmpty()) {
      return List.of();
    }
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    Map<Long, List<LotStock.At>> held = new LinkedHashMap<>();
    em.createQuery(
            "select b.lotId, b.locationId, b.packs from StockBalance b where b.lotId in :lots and"
                + " b.locationId in :at and b.packs > 0 order by b.locationId",
            Object[].class)
        .setParameter("lots", lotIds)
        .setParameter("at", locationIds)
        .getResultList()
        .forEach(
            row ->
                held.computeIfAbsent((Long) row[0], lot -> new ArrayList<>())
                    .add(new LotStock.At(codes.get((Long) row[1]), (Integer) row[2])));
    return balances.facts(lotIds).stream()
        .sorted(Comparator.comparing(LotFacts::expiresOn).thenComparing(LotFacts::number))
        .map(
            lot ->
                new LotStock(
                    String.valueOf(lot.id()),
                    lot.code(),
                    lot.number(),
                    lot.expiresOn(),
                    lot.udi(),
                    lot.state(),
                    lot.stateReason(),
                    lot.consigned(),
                    held.getOrDefault(lot.id(), List.of())))
        .toList();
  }

  /**
   * Holds a lot back everywhere, at once: whoever is taking packs of it at this moment is either
   * done before, or refused.
   *
   * @param recalled whether the maker recalls it
   */
  @Transactional
  public void quarantine(Long lotId, String reason, boolean recalled, Happened happened) {
    if (PadStock.blank(reason)) {
      throw new Refusal("reason", "Say what is wrong with the lot.");
    }
    become(
        lotId,
        recalled ? LotState.RECALLED : LotState.QUARANTINED,
        reason,
        happened,
        recalled ? "recalled" : "quarantined");
  }

  /** Lets packs of a lot leave again. */
  @Transactional
  public void release(Long lotId, String reason, Happened happened) {
    if (PadStock.blank(reason)) {
      throw new Refusal("reason", "Say why the lot is good again.");
    }
    if (row(lotId).state == LotState.FREE) {
      throw new Refusal("state", "This lot is not held back.");
    }
    Refusals refusals = new Refusals();
    for (LotKept keeper : keepers) {
      keeper.why(lotId).ifPresent(why -> refusals.add("state", why, "Close that first."));
    }
    refusals.throwIfAny();
    become(lotId, LotState.FREE, reason, happened, "released");
  }

  private void become(Long lotId, LotState state, String reason, Happened happened, String action) {
    PadLot lot = row(lotId);
    balances.hold(lotId);
    Object before = new State(lot.state, lot.stateReason);
    lot.state = state;
    lot.stateReason = reason.strip();
    lot.stateSince = happened.at();
    trail.record(
        Subject.of("pad-lot", lotId), action, happened, before, new State(state, reason.strip()));
  }

  /** As it stands in the trail. */
  record State(LotState state, String reason) {}

  /** Everybody who was given packs of the lot and has not brought them back, last given first. */
  @Transactional
  public List<PadHolder> whoHas(Long lotId) {
    List<Object[]> given =
        em.createQuery(
                "select m.patientId, m.loanId, sum(m.packs), max(m.happenedAt) from StockMovement m"
                    + " where m.lotId = :lot and m.reason in :reasons and m.patientId is not null"
                    + " group by m.patientId, m.loanId having sum(m.packs) < 0"
                    + " order by max(m.happenedAt) desc",
                Object[].class)
            .setParameter("lot", lotId)
            .setParameter("reasons", PadStock.PATIENT_REASONS)
            .getResultList();
    Map<Long, Integer> sets = new LinkedHashMap<>();
    em.createQuery(
            "select s.patientId, count(s) from PadSet s where s.lot.id = :lot and s.outcome is null"
                + " group by s.patientId",
            Object[].class)
        .setParameter("lot", lotId)
        .getResultList()
        .forEach(row -> sets.put((Long) row[0], ((Long) row[1]).intValue()));
    Map<Long, String> words = words(given);
    List<PadHolder> holders = new ArrayList<>();
    for (Object[] row : given) {
      Integer open = sets.remove((Long) row[0]);
      holders.add(
          new PadHolder(
              (Long) row[0],
              (Long) row[1],
              words.get((Long) row[1]),
              -((Number) row[2]).intValue(),
              open == null ? 0 : open,
              LocalDate.ofInstant((Instant) row[3], ZoneOffset.UTC)));
    }
    sets.forEach((patient, open) -> holders.add(new PadHolder(patient, null, null, 0, open, null)));
    return holders;
  }

  /** Packs of the lot that went into drawers lately and may still lie there, by location. */
  @Transactional
  public List<LotStock.At> inDrawers(Long lotId, Collection<Long> locationIds) {
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    return em
        .createQuery(
            "select m.locationId, -sum(m.packs) from StockMovement m where m.lotId = :lot and"
                + " m.locationId in :at and m.reason = :drawer and m.happenedAt >= :since and not"
                + " exists (select 1 from StockMovement r where r.reversesId = m.id) group by"
                + " m.locationId order by m.locationId",
            Object[].class)
        .setParameter("lot", lotId)
        .setParameter("at", locationIds)
        .setParameter("drawer", MovementReason.DRAWER_TAKE)
        .setParameter("since", clock.instant().minus(DRAWER))
        .getResultList()
        .stream()
        .map(row -> new LotStock.At(codes.get((Long) row[0]), ((Number) row[1]).intValue()))
        .toList();
  }

  private Map<Long, String> words(List<Object[]> given) {
    List<Long> loans =
        given.stream().map(row -> (Long) row[1]).filter(Objects::nonNull).distinct().toList();
    Map<Long, String> words = new LinkedHashMap<>();
    if (!loans.isEmpty()) {
      loanWords.forEach(room -> words.putAll(room.words(loans)));
    }
    return words;
  }

  /**
   * The lot with this number, made if it is new.
   *
   * @throws Refusal if it is known with another expiry
   */
  PadLot findOrMake(PadType type, String number, LocalDate expiresOn, String udi) {
    PadLot lot = known(type, number);
    if (lot == null) {
      // Two who enter the same new lot at the same moment: one after the other.
      balances.holdType(type.id);
      lot = known(type, number);
    }
    if (lot == null) {
      lot = new PadLot();
      lot.type = type;
      lot.number = number.strip();
      lot.expiresOn = expiresOn;
      lot.udi = udi;
      lot.state = LotState.FREE;
      rows.persistAndFlush(lot);
      return lot;
    }
    if (!lot.expiresOn.equals(expiresOn)) {
      throw new Refusal(
          "expiresOn",
          "Lot "
              + number
              + " is known with the expiry "
              + lot.expiresOn
              + ", not "
              + expiresOn
              + ".",
          "Look at the pack again.");
    }
    if (lot.udi == null && udi != null) {
      lot.udi = udi;
    }
    return lot;
  }

  private PadLot known(PadType type, String number) {
    return rows.find("type.id = ?1 and number = ?2", type.id, number.strip()).firstResult();
  }

  private PadLot row(Long id) {
    PadLot lot = rows.findById(id);
    if (lot == null) {
      throw new NotFound("There is no lot with this number.");
    }
    return lot;
  }
}
