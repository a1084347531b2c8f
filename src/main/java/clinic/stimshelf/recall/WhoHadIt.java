package clinic.stimshelf.recall;

import clinic.stimshelf.pads.MovementReason;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Who had a unit or pads of a lot. Read anew each time from loans, treatments, the ledger and the
 * pad sets, so that what is entered late appears; as many questions for a hundred people as for
 * one.
 */
@ApplicationScoped
class WhoHadIt {
  private static final Set<MovementReason> TO_AND_FROM_PATIENTS =
      Set.of(MovementReason.GIVEN, MovementReason.RETURNED_SEALED, MovementReason.APPOINTMENT);

  @Inject EntityManager em;

  /** Loans and treatments with the units, first begun first. */
  List<HeldIt> ofUnits(Collection<Long> unitIds, ZoneId zone) {
    List<HeldIt> times = new ArrayList<>();
    if (unitIds.isEmpty()) {
      return times;
    }
    em.createQuery(
            "select l.patientId, l.id, n.tag, u.startsAt, u.endedAt from UnitUseRow u, Loan l, Unit"
                + " n where u.useKind = :kind and l.id = u.subjectId and n.id = u.unitId and"
                + " u.voided = false and u.unitId in :units order by u.startsAt, u.id",
            Object[].class)
        .setParameter("kind", UseKind.LOAN)
        .setParameter("units", unitIds)
        .getResultList()
        .forEach(row -> times.add(use("loan", row, String.valueOf(row[1]), zone)));
    em.createQuery(
            "select a.patientId, a.id, n.tag, u.startsAt, u.endedAt from UnitUseRow u, Appointment"
                + " a, Unit n where u.useKind = :kind and a.id = u.subjectId and n.id = u.unitId and"
                + " u.voided = false and u.unitId in :units order by u.startsAt, u.id",
            Object[].class)
        .setParameter("kind", UseKind.TREATMENT)
        .setParameter("units", unitIds)
        .getResultList()
        .forEach(row -> times.add(use("treatment", row, null, zone)));
    return times;
  }

  private static HeldIt use(String how, Object[] row, String loanId, ZoneId zone) {
    Instant ended = (Instant) row[4];
    return new HeldIt(
        (Long) row[0],
        how,
        "unit " + row[2],
        loanId,
        day((Instant) row[3], zone),
        ended == null ? null : day(ended, zone),
        ended == null ? StillHas.YES : StillHas.NO);
  }

  /** Packs of the lot that were given, and pad sets of it that were opened. */
  List<HeldIt> ofLot(Long lotId, ZoneId zone) {
    Map<List<Object>, Packs> given = new LinkedHashMap<>();
    em.createQuery(
            "select m.patientId, m.loanId, m.reason, m.packs, m.happenedAt from StockMovement m"
                + " where m.lotId = :lot and m.patientId is not null and m.reason in :reasons and"
                + " not exists (select 1 from StockMovement r where r.reversesId = m.id) order by"
                + " m.happenedAt, m.id",
            Object[].class)
        .setParameter("lot", lotId)
        .setParameter("reasons", TO_AND_FROM_PATIENTS)
        .getResultList()
        .forEach(
            row -> {
              boolean visit = row[2] == MovementReason.APPOINTMENT;
              List<Object> key = new ArrayList<>();
              key.add(row[0]);
              key.add(row[1]);
              key.add(visit);
              given
                  .computeIfAbsent(key, k -> new Packs((Long) row[0], (Long) row[1], visit))
                  .add((Integer) row[3], day((Instant) row[4], zone));
            });
    Set<Long> open = openLoans(given.values().stream().map(one -> one.loanId).toList());
    List<Object[]> sets =
        em.createQuery(
                "select s.patientId, s.pads, s.openedOn, s.closedOn, s.openingAssumed,"
                    + " s.lot.type.padsPerPack from PadSet s where s.lot.id = :lot order by"
                    + " s.openedOn, s.id",
                Object[].class)
            .setParameter("lot", lotId)
            .getResultList();
    Set<Long> emptied = emptied(given.values(), sets);
    List<HeldIt> times = new ArrayList<>();
    given
        .values()
        .forEach(
            packs ->
                times.add(
                    packs.told(open.contains(packs.loanId), emptied.contains(packs.patientId))));
    sets.forEach(
        row ->
            times.add(
                new HeldIt(
                    (Long) row[0],
                    "set",
                    "set of " + row[1] + " pads in use",
                    null,
                    (LocalDate) row[2],
                    (LocalDate) row[3],
                    row[3] == null ? StillHas.YES : StillHas.NO)));
    return times;
  }

  /**
   * Patients of whom somebody said that they opened every pack they have not brought back. An
   * opening that was only taken for granted proves nothing.
   */
  private static Set<Long> emptied(Collection<Packs> given, List<Object[]> sets) {
    Map<Long, Integer> unopened = new HashMap<>();
    Map<Long, Integer> perPack = new HashMap<>();
    for (Object[] set : sets) {
      if (!(Boolean) set[4]) {
        unopened.merge((Long) set[0], -(Integer) set[1], Integer::sum);
        perPack.put((Long) set[0], (Integer) set[5]);
      }
    }
    for (Packs packs : given) {
      if (!packs.visit && perPack.containsKey(packs.patientId)) {
        unopened.merge(
            packs.patientId, (packs.out - packs.back) * perPack.get(packs.patientId), Integer::sum);
      }
    }
    return unopened.entrySet().stream()
        .filter(one -> one.getValue() <= 0)
        .map(Map.Entry::getKey)
        .collect(Collectors.toSet());
  }

  private Set<Long> openLoans(Collection<Long> loanIds) {
    List<Long> ids = loanIds.stream().filter(Objects::nonNull).distinct().toList();
    return ids.isEmpty()
        ? Set.of()
        : new HashSet<>(
            em.createQuery(
                    "select l.id from Loan l where l.id in :ids and l.openProgramId is not null",
                    Long.class)
                .setParameter("ids", ids)
                .getResultList());
  }

  private static LocalDate day(Instant at, ZoneId zone) {
    return LocalDate.ofInstant(at, zone);
  }

  /** What one patient was given of the lot with one loan. */
  private static final class Packs {
    private final Long patientId;
    private final Long loanId;
    private final boolean visit;
    private int out;
    private int back;
    private LocalDate first;
    private LocalDate last;

    private Packs(Long patientId, Long loanId, boolean visit) {
      this.patientId = patientId;
      this.loanId = loanId;
      this.visit = visit;
    }

    private void add(int packs, LocalDate day) {
      if (packs < 0) {
        out -= packs;
      } else {
        back += packs;
      }
      first = first == null ? day : first;
      last = day;
    }

    private HeldIt told(boolean loanOpen, boolean emptied) {
      boolean opened = emptied && !loanOpen && out > back && !visit;
      boolean left = out > back && !visit && !opened;
      String words =
          visit
              ? (out == 1 ? "1 pack used at a visit" : out + " packs used at visits")
              : out + (out == 1 ? " pack given" : " packs given");
      return new HeldIt(
          patientId,
          "packs",
          words + (back == 0 ? "" : ", " + back + " back sealed") + (opened ? ", all opened" : ""),
          loanId == null ? null : String.valueOf(loanId),
          first,
          left ? null : last,
          !left ? StillHas.NO : loanOpen ? StillHas.YES : StillHas.MAYBE);
    }
  }
}
