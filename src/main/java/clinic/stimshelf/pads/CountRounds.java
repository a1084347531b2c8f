package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.TryAgain;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import jakarta.persistence.PersistenceException;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Counting the cupboard spot by spot while people go on working. Nobody knows from which spot packs
 * were taken meanwhile, so a sum fits if the ledger showed it at any moment of the count; only what
 * lies outside of that is a difference.
 */
@Retried
@ApplicationScoped
public class CountRounds {
  @Inject EntityManager em;
  @Inject Balances balances;
  @Inject Ledger ledger;
  @Inject TreatmentDrawers drawers;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Actor actor;
  @Inject Clock clock;

  /** A count and what was counted so far; what the ledger says is not shown. */
  public record RoundView(
      Long id,
      Long locationId,
      Instant startedAt,
      String startedBy,
      boolean open,
      List<Spot> spots,
      List<LotFactsView> notYet) {}

  /** A spot and what was counted there. */
  public record Spot(String name, List<Line> lines) {}

  /** Packs of a lot at a spot. */
  public record Line(Long id, Long lotId, String code, String lot, int packs) {}

  /**
   * What came of a count.
   *
   * @param lots how many were compared
   * @param corrected how many did not fit and were corrected
   * @param movedMeanwhile how many changed while it went on and fit all the same
   */
  public record Result(int lots, int corrected, int movedMeanwhile) {}

  /** Begins a count, or answers the one that goes on. */
  @Transactional
  public Long start(Long locationId) {
    Long going = going(locationId);
    if (going != null) {
      return going;
    }
    CountRound round = new CountRound();
    round.locationId = locationId;
    round.openLocationId = locationId;
    round.startedAt = clock.instant();
    round.startedBy = actor.name();
    try {
      em.persist(round);
      em.flush();
    } catch (PersistenceException another) {
      throw new TryAgain("Another count began here at the same moment.", another);
    }
    told(round, "begun", times.now(), null, null);
    return round.id;
  }

  /** The count that goes on at a location, or {@code null}. */
  @Transactional
  public Long going(Long locationId) {
    return em.createQuery("select r.id from CountRound r where r.openLocationId = :at", Long.class)
        .setParameter("at", locationId)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }

  /** Adds packs of a lot that lie at a spot. */
  @Transactional
  public void found(Long roundId, String spot, Long lotId, int packs) {
    CountRound round = going(roundId, LockModeType.PESSIMISTIC_WRITE);
    Refusals refusals = new Refusals();
    if (PadStock.blank(spot) || spot.strip().length() > 80) {
      refusals.add("spot", "At which spot do you count?");
    }
    if (lotId == null) {
      refusals.add("scan", "Scan a pack, or type its lot number.");
    }
    if (packs < 0 || packs > 100_000) {
      refusals.add("packs", "Packs must be from 0 to 100000, not " + packs + ".");
    }
    refusals.throwIfAny();
    CountLine line =
        em.createQuery(
                "from CountLine l where l.roundId = :round and l.spot = :spot and l.lotId = :lot",
                CountLine.class)
            .setParameter("round", round.id)
            .setParameter("spot", spot.strip())
            .setParameter("lot", lotId)
            .getResultStream()
            .findFirst()
            .orElse(null);
    if (line == null) {
      line = new CountLine();
      line.roundId = round.id;
      line.spot = spot.strip();
      line.lotId = lotId;
      line.countedAt = clock.instant();
      em.persist(line);
    }
    CountedPacks before = counted(line);
    line.packs += packs;
    line.countedAt = clock.instant();
    told(round, "packs found", times.now(), before, counted(line));
  }

  /** Puts right what was counted at a spot. */
  @Transactional
  public void correct(Long roundId, Long lineId, int packs) {
    CountRound round = going(roundId, LockModeType.PESSIMISTIC_WRITE);
    CountLine line = em.find(CountLine.class, lineId);
    if (line == null || !line.roundId.equals(round.id)) {
      throw new NotFound("There is no such line in this count.");
    }
    if (packs < 0 || packs > 100_000) {
      throw new Refusal("packs", "Packs must be from 0 to 100000, not " + packs + ".");
    }
    CountedPacks before = counted(line);
    line.packs = packs;
    line.countedAt = clock.instant();
    told(round, "packs corrected", times.now(), before, counted(line));
  }

  /** What stands of a lot at a spot. */
  private record CountedPacks(String spot, Long lotId, int packs) {}

  private static CountedPacks counted(CountLine line) {
    return new CountedPacks(line.spot, line.lotId, line.packs);
  }

  private void told(
      CountRound round, String action, Happened happened, Object before, Object after) {
    trail.record(
        Subject.of("pad-count", round.id), round.locationId, action, happened, before, after);
  }

  /**
   * Ends the count: each lot's sum over all spots is held against the ledger.
   *
   * @param all whether every spot was counted, so that a lot that was not found is not there
   * @param reason why something differs; needed where it does
   * @throws Refusal that names every lot that differs
   */
  @Transactional
  public Result close(Long roundId, boolean all, String reason, Happened happened) {
    CountRound round = going(roundId, LockModeType.PESSIMISTIC_WRITE);
    Map<Long, Integer> counted = new TreeMap<>();
    List<CountLine> lines = lines(round.id);
    lines.forEach(line -> counted.merge(line.lotId, line.packs, Integer::sum));
    if (all) {
      there(round.locationId).forEach(lot -> counted.putIfAbsent(lot, 0));
    }
    if (counted.isEmpty()) {
      throw new Refusal("scan", "Nothing was counted yet.", "Scan what lies at a spot.");
    }
    Map<Long, LotFacts> lots = facts(counted.keySet());
    Refusals refusals = new Refusals();
    int corrected = 0;
    int moved = 0;
    for (Map.Entry<Long, Integer> sum : counted.entrySet()) {
      LotFacts lot = lots.get(sum.getKey());
      balances.hold(lot.id());
      LotMeanwhile range = meanwhile(lot.id(), round);
      int off = range.off(sum.getValue());
      moved += range.moved() && off == 0 ? 1 : 0;
      Long movementId = null;
      if (off != 0) {
        corrected++;
        if (PadStock.blank(reason)) {
          refusals.add(
              "reason",
              range.words(lot.number(), sum.getValue()),
              "Count once more; if it stays so, say what may have happened.");
          continue;
        }
        StockMovement movement = PadStock.movement(lot, round.locationId, off);
        movement.reason = MovementReason.COUNT_DIFFERENCE;
        movement.note = PadStock.text(reason);
        movementId = ledger.add(movement, lot.number(), happened).id;
      }
      write(round, lot.id(), sum.getValue(), range, reason, movementId, happened);
    }
    refusals.throwIfAny();
    drawers.counted(round.locationId, byTypeAtSpot(lines, lots));
    round.openLocationId = null;
    round.closedAt = happened.at();
    Result result = new Result(counted.size(), corrected, moved);
    told(round, "counted", happened, null, result);
    return result;
  }

  /** Ends it without comparing anything. */
  @Transactional
  public void abandon(Long roundId, Happened happened) {
    CountRound round = going(roundId, LockModeType.PESSIMISTIC_WRITE);
    round.openLocationId = null;
    round.closedAt = happened.at();
    told(round, "abandoned", happened, null, null);
  }

  /**
   * @throws NotFound if there is none
   */
  @Transactional
  public RoundView byId(Long roundId) {
    CountRound round = em.find(CountRound.class, roundId);
    if (round == null) {
      throw new NotFound("There is no count with this number.");
    }
    List<CountLine> lines = lines(roundId);
    Map<Long, LotFacts> lots =
        facts(lines.stream().map(line -> line.lotId).collect(Collectors.toSet()));
    Map<String, List<Line>> spots = new TreeMap<>();
    for (CountLine line : lines) {
      LotFacts lot = lots.get(line.lotId);
      spots
          .computeIfAbsent(line.spot, spot -> new ArrayList<>())
          .add(new Line(line.id, lot.id(), lot.code(), lot.number(), line.packs));
    }
    TreeSet<Long> left = new TreeSet<>(there(round.locationId));
    left.removeAll(lots.keySet());
    return new RoundView(
        round.id,
        round.locationId,
        round.startedAt,
        round.startedBy,
        round.openLocationId != null,
        spots.entrySet().stream().map(e -> new Spot(e.getKey(), e.getValue())).toList(),
        facts(left).values().stream()
            .map(
                lot ->
                    new LotFactsView(
                        lot.id(), lot.code(), lot.number(), lot.expiresOn(), lot.state()))
            .toList());
  }

  private CountRound going(Long roundId, LockModeType lock) {
    CountRound round = em.find(CountRound.class, roundId, lock);
    if (round == null) {
      throw new NotFound("There is no count with this number.");
    }
    if (round.openLocationId == null) {
      throw new Refusal("id", "This count has ended.", "Start a new one.");
    }
    return round;
  }

  private List<CountLine> lines(Long roundId) {
    return em.createQuery(
            "from CountLine l where l.roundId = :round order by l.spot, l.id", CountLine.class)
        .setParameter("round", roundId)
        .getResultList();
  }

  private List<Long> there(Long locationId) {
    return em.createQuery(
            "select b.lotId from StockBalance b where b.locationId = :at and b.packs > 0",
            Long.class)
        .setParameter("at", locationId)
        .getResultList();
  }

  private Map<Long, LotFacts> facts(java.util.Set<Long> lotIds) {
    return lotIds.isEmpty()
        ? Map.of()
        : balances.facts(lotIds).stream()
            .collect(Collectors.toMap(LotFacts::id, Function.identity()));
  }

  private LotMeanwhile meanwhile(Long lotId, CountRound round) {
    return LotMeanwhile.of(
        balances.packs(lotId, round.locationId),
        em.createQuery(
                "select m.packs from StockMovement m where m.lotId = :lot and m.locationId = :at"
                    + " and m.recordedAt >= :since order by m.recordedAt desc, m.id desc",
                Integer.class)
            .setParameter("lot", lotId)
            .setParameter("at", round.locationId)
            .setParameter("since", round.startedAt)
            .getResultList());
  }

  private void write(
      CountRound round,
      Long lotId,
      int packs,
      LotMeanwhile range,
      String reason,
      Long movementId,
      Happened happened) {
    StockCount row = new StockCount();
    row.lotId = lotId;
    row.locationId = round.locationId;
    row.counted = packs;
    row.expected = packs - range.off(packs);
    row.reason = PadStock.text(reason);
    row.movementId = movementId;
    row.happenedAt = happened.at();
    row.recordedAt = clock.instant();
    row.staffName = actor.name();
    em.persist(row);
  }

  private static Map<String, Map<Long, Integer>> byTypeAtSpot(
      List<CountLine> lines, Map<Long, LotFacts> lots) {
    Map<String, Map<Long, Integer>> sums = new HashMap<>();
    for (CountLine line : lines) {
      sums.computeIfAbsent(line.spot, spot -> new HashMap<>())
          .merge(lots.get(line.lotId).padTypeId(), line.packs, Integer::sum);
    }
    return sums;
  }
}
