package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/** The one place where packs move: balance, ledger line and trail in one transaction. */
@ApplicationScoped
class Ledger {
  @Inject StockMovementRows rows;
  @Inject Balances balances;
  @Inject EntityManager em;
  @Inject Actor actor;
  @Inject Trail trail;
  @Inject Clock clock;

  /**
   * Changes the balance and adds the line.
   *
   * @param line what moves; times and person are filled in here
   * @param lot for the words of a refusal
   * @return the line, with its number
   * @throws Refusal if the location does not have as many packs, now or at the time it happened
   */
  StockMovement add(StockMovement line, String lot, Happened happened) {
    move(line, lot);
    return addMoved(line, lot, happened);
  }

  /** The same where the balance has been changed already. */
  StockMovement addMoved(StockMovement line, String lot, Happened happened) {
    if (line.packs < 0
        && !justNow(happened.at())
        && course(line.lotId, line.locationId, happened.at()).least() + line.packs < 0) {
      throw new Refusal(
          "happenedAt",
          "At that time there were not " + -line.packs + " packs of lot " + lot + " here.",
          "Check the time, or enter first what was delivered before it.");
    }
    write(line, happened);
    int now = balances.packs(line.lotId, line.locationId);
    trail.record(
        Subject.of("pad-lot", line.lotId),
        line.locationId,
        line.reason.word(),
        happened,
        Map.of("packs", now - line.packs),
        Map.of("packs", now, "movement", String.valueOf(line.id)));
    return line;
  }

  /** The same for history out of a file: not held against its time, one short line in the trail. */
  StockMovement enter(StockMovement line, String lot, Happened happened) {
    move(line, lot);
    write(line, happened);
    trail.record(
        Subject.of("pad-lot", line.lotId),
        line.locationId,
        "imported",
        happened,
        null,
        Map.of("moved", line.packs, "reason", line.reason.word()));
    return line;
  }

  private void move(StockMovement line, String lot) {
    if (line.packs > 0) {
      balances.put(line.lotId, line.locationId, line.packs);
    } else if (!balances.take(line.lotId, line.locationId, -line.packs)) {
      throw new Refusal(
          "packs",
          "Of lot "
              + lot
              + " there are "
              + balances.packs(line.lotId, line.locationId)
              + " packs here, not "
              + -line.packs
              + ".",
          "Take fewer, or count the drawer.");
    }
  }

  private void write(StockMovement line, Happened happened) {
    line.happenedAt = happened.at();
    line.lateReason = happened.lateReason();
    line.recordedAt = clock.instant();
    line.staffId = actor.staffId();
    line.staffName = actor.name();
    rows.persist(line);
  }

  /** What the ledger had of a lot at a moment; now, if the moment is just past. */
  int packsAt(Long lotId, Long locationId, Instant at) {
    return justNow(at) ? balances.packs(lotId, locationId) : course(lotId, locationId, at).before();
  }

  private boolean justNow(Instant at) {
    return !at.isBefore(clock.instant().minusSeconds(60));
  }

  /**
   * How a lot's packs went.
   *
   * @param before what was there at a moment
   * @param least the lowest it stood from then on
   */
  private record Course(int before, int least) {}

  private Course course(Long lotId, Long locationId, Instant from) {
    List<Object[]> lines =
        em.createQuery(
                "select m.happenedAt, m.packs from StockMovement m where m.lotId = :lot and"
                    + " m.locationId = :at order by m.happenedAt, m.id",
                Object[].class)
            .setParameter("lot", lotId)
            .setParameter("at", locationId)
            .getResultList();
    int sum = 0;
    int before = 0;
    int least = Integer.MAX_VALUE;
    for (Object[] row : lines) {
      sum += (Integer) row[1];
      if (((Instant) row[0]).isAfter(from)) {
        least = Math.min(least, sum);
      } else {
        before = sum;
      }
    }
    return new Course(before, Math.min(least, before));
  }
}
