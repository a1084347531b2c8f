package clinic.stimshelf.loans;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.DatedDemand;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.program.PacksGiven;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What the clinic owes in packs, as the cupboard and the programs need to know it. */
@ApplicationScoped
class OwedPacks implements DatedDemand, PacksGiven {
  @Inject EntityManager em;
  @Inject PadCatalog catalog;
  @Inject Locations locations;
  @Inject Clock clock;

  /** Packs of days to come are told by the programs, which know how they are thinned. */
  @Override
  public List<DatedPacks> dated(Long locationId, LocalDate from, LocalDate to) {
    return List.of();
  }

  @Override
  @Transactional
  public int owed(Long padTypeId, Long locationId) {
    return owed(List.of(padTypeId), locationId).getOrDefault(padTypeId, 0);
  }

  @Override
  @Transactional
  public Map<Long, Integer> owed(Collection<Long> padTypeIds, Long locationId) {
    Map<String, Integer> byCode = new HashMap<>();
    em.createQuery(
            "select o.padCode, sum(o.packs) from LoanOwed o, Loan l where l.id = o.loanId"
                + " and l.locationId = :place and l.openProgramId is not null"
                + " and o.owedBy = :clinic and o.what = :packs and o.settledAt is null"
                + " and o.dueOn <= :today group by o.padCode",
            Object[].class)
        .setParameter("place", locationId)
        .setParameter("clinic", OwedBy.CLINIC)
        .setParameter("packs", OwedKind.PACKS)
        .setParameter("today", locations.today(locationId))
        .getResultList()
        .forEach(row -> byCode.put((String) row[0], ((Long) row[1]).intValue()));
    Map<Long, Integer> owed = new HashMap<>();
    Map<Long, PadTypeView> types = catalog.byIds(padTypeIds);
    padTypeIds.forEach(
        id ->
            owed.put(id, types.containsKey(id) ? byCode.getOrDefault(types.get(id).code(), 0) : 0));
    return owed;
  }

  @Override
  @Transactional
  public Map<Long, Map<String, Integer>> given(Collection<Long> programIds) {
    Map<Long, Map<String, Integer>> given = new HashMap<>();
    if (programIds.isEmpty()) {
      return given;
    }
    em.createQuery(
            "select l.programId, p.type.code, sum(m.packs) from StockMovement m, PadLot p, Loan l"
                + " where p.id = m.lotId and l.id = m.loanId and l.programId in :programs"
                + " group by l.programId, p.type.code",
            Object[].class)
        .setParameter("programs", programIds)
        .getResultList()
        .forEach(row -> add(given, row, -((Long) row[2]).intValue()));
    em.createQuery(
            "select l.programId, o.padCode, sum(o.packs) from LoanOwed o, Loan l"
                + " where l.id = o.loanId and l.programId in :programs and o.owedBy = :clinic"
                + " and o.what = :packs and o.settledAt is null and o.dueOn <= :today"
                + " group by l.programId, o.padCode",
            Object[].class)
        .setParameter("programs", programIds)
        .setParameter("clinic", OwedBy.CLINIC)
        .setParameter("packs", OwedKind.PACKS)
        .setParameter("today", LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC))
        .getResultList()
        .forEach(row -> add(given, row, ((Long) row[2]).intValue()));
    return given;
  }

  private static void add(Map<Long, Map<String, Integer>> given, Object[] row, int packs) {
    given
        .computeIfAbsent((Long) row[0], program -> new TreeMap<>())
        .merge((String) row[1], packs, Integer::sum);
  }
}
