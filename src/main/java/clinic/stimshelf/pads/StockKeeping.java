package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Keeps the cupboard in order: throwing away, counting, moving, and undoing mistakes. */
@Retried
@ApplicationScoped
public class StockKeeping {
  private static final Set<MovementReason> WITH_PATIENT =
      EnumSet.of(MovementReason.GIVEN, MovementReason.RETURNED_SEALED);

  @Inject Balances balances;
  @Inject Ledger ledger;
  @Inject StockMovementRows movements;
  @Inject StockCountRows counts;
  @Inject SupplyOrderLineRows orderLines;
  @Inject Locations locations;
  @Inject Actor actor;
  @Inject Clock clock;
  @Inject EntityManager em;

  /**
   * Takes packs out for good, whatever the state of their lot.
   *
   * @return number of the ledger's line
   */
  @Transactional
  public Long discard(Long lotId, Long locationId, int packs, String note, Happened happened) {
    LotFacts lot = lot(lotId);
    Refusals refusals = new Refusals();
    boolean expired = lot.expiresOn().isBefore(day(locationId, happened));
    if (packs < 1) {
      refusals.add("packs", "Packs must be 1 or more, not " + packs + ".");
    }
    if (!expired && lot.state() == LotState.FREE && PadStock.blank(note)) {
      refusals.add("note", "These packs are good. Say why they are thrown away.");
    }
    refusals.throwIfAny();
    StockMovement movement = PadStock.movement(lot, locationId, -packs);
    movement.reason = expired ? MovementReason.EXPIRED : MovementReason.DISCARDED;
    movement.note = PadStock.text(note);
    return ledger.add(movement, lot.number(), happened).id;
  }

  /**
   * Records a physical count. What differs from the ledger is corrected by a movement that says so.
   *
   * @param reason why the ledger was off; needed where anything differs
   * @return numbers of the movements made
   */
  @Transactional
  public List<Long> count(
      Long locationId, List<CountedLot> counted, String reason, Happened happened) {
    Refusals refusals = new Refusals();
    Map<Long, LotFacts> lots =
        balances.facts(counted.stream().map(CountedLot::lotId).collect(Collectors.toSet())).stream()
            .collect(Collectors.toMap(LotFacts::id, Function.identity()));
    if (counted.isEmpty()) {
      refusals.add("lines", "Say of which lots how many packs were counted.");
    }
    Set<Long> seen = new HashSet<>();
    for (CountedLot line : counted) {
      if (!lots.containsKey(line.lotId())) {
        refusals.add("lotId", "There is no lot with the number " + line.lotId() + ".");
      } else if (!seen.add(line.lotId())) {
        refusals.add("lotId", "Lot " + lots.get(line.lotId()).number() + " is counted twice.");
      }
      if (line.packs() < 0 || line.packs() > 100_000) {
        refusals.add("packs", "Counted packs must be from 0 to 100000, not " + line.packs() + ".");
      }
    }
    refusals.throwIfAny();
    List<Long> made = new ArrayList<>();
    for (CountedLot line :
        counted.stream().sorted(Comparator.comparing(CountedLot::lotId)).toList()) {
      LotFacts lot = lots.get(line.lotId());
      balances.hold(lot.id());
      int expected = ledger.packsAt(lot.id(), locationId, happened.at());
      Long movementId = null;
      if (line.packs() != expected) {
        if (PadStock.blank(reason)) {
          refusals.add(
              "reason",
              "Of lot "
                  + lot.number()
                  + " the ledger has "
                  + expected
                  + " packs, counted were "
                  + line.packs()
                  + ".",
              "Count once more; if it stays so, say what may have happened.");
          continue;
        }
        StockMovement movement = PadStock.movement(lot, locationId, line.packs() - expected);
        movement.reason = MovementReason.COUNT_DIFFERENCE;
        movement.note = PadStock.text(reason);
        movementId = ledger.add(movement, lot.number(), happened).id;
        made.add(movementId);
      }
      StockCount row = new StockCount();
      row.lotId = lot.id();
      row.locationId = locationId;
      row.counted = line.packs();
      row.expected = expected;
      row.reason = PadStock.text(reason);
      row.movementId = movementId;
      row.happenedAt = happened.at();
      row.recordedAt = clock.instant();
      row.staffName = actor.name();
      counts.persist(row);
    }
    refusals.throwIfAny();
    return made;
  }

  /**
   * Moves packs to another location: two lines that belong together.
   *
   * @return numbers of the lines, those that left first
   */
  @Transactional
  public List<Long> transfer(
      Long from, Long to, List<PackLine> lines, String note, Happened happened) {
    Refusals refusals = new Refusals();
    if (from.equals(to)) {
      refusals.add("to", "Packs are moved to another location than they are at.");
    }
    if (lines.isEmpty()) {
      refusals.add("lines", "Say of which lots how many packs are moved.");
    }
    Map<Long, LotFacts> lots =
        balances.facts(lines.stream().map(PackLine::lotId).collect(Collectors.toSet())).stream()
            .collect(Collectors.toMap(LotFacts::id, Function.identity()));
    LocalDate day = day(from, happened);
    for (PackLine line : lines) {
      LotFacts lot = lots.get(line.lotId());
      if (lot == null) {
        refusals.add("lotId", "There is no lot with the number " + line.lotId() + ".");
        continue;
      }
      if (line.packs() < 1) {
        refusals.add("packs", "Packs must be 1 or more, not " + line.packs() + ".");
      }
      balances.hold(lot.id());
      LotFacts now = lot(lot.id());
      if (now.heldAt(happened.at()) || now.expiresOn().isBefore(day)) {
        refusals.add(
            "lotId",
            "Lot "
                + now.number()
                + " is "
                + (now.heldAt(happened.at()) ? now.state().words() : "expired")
                + " and stays where it is.",
            "Take another lot.");
      }
    }
    refusals.throwIfAny();
    String key = UUID.randomUUID().toString();
    List<Long> left = new ArrayList<>();
    List<Long> came = new ArrayList<>();
    for (PackLine line : lines.stream().sorted(Comparator.comparing(PackLine::lotId)).toList()) {
      LotFacts lot = lots.get(line.lotId());
      left.add(leg(lot, from, -line.packs(), key, note, happened));
      came.add(leg(lot, to, line.packs(), key, note, happened));
    }
    left.addAll(came);
    return left;
  }

  private Long leg(
      LotFacts lot, Long locationId, int packs, String key, String note, Happened happened) {
    StockMovement movement = PadStock.movement(lot, locationId, packs);
    movement.reason = MovementReason.TRANSFER;
    movement.transferKey = key;
    movement.note = PadStock.text(note);
    return ledger.add(movement, lot.number(), happened).id;
  }

  /**
   * Undoes a line that was entered wrongly. A move between locations is undone on both sides.
   *
   * @return number of the line that undoes it
   * @throws Refusal if it was undone before, or the packs are no longer there
   */
  @Transactional
  public Long reverse(Long movementId, String reason, Happened happened) {
    StockMovement wrong = movements.findById(movementId);
    if (wrong == null) {
      throw new NotFound("There is no line with this number in the ledger.");
    }
    List<Long> together =
        wrong.transferKey == null
            ? List.of(wrong.id)
            : movements
                .list("transferKey = ?1 and lotId = ?2", wrong.transferKey, wrong.lotId)
                .stream()
                .map(m -> m.id)
                .toList();
    List<Long> made = reverseAll(together, reason, happened);
    return made.get(together.indexOf(movementId));
  }

  List<Long> reverseAll(List<Long> ids, String reason, Happened happened) {
    if (PadStock.blank(reason)) {
      throw new Refusal("reason", "Say what was wrong.");
    }
    if (ids.isEmpty()) {
      return List.of();
    }
    List<StockMovement> wrong = movements.list("id in ?1 order by packs, id", ids);
    Map<Long, LotFacts> lots =
        balances.facts(wrong.stream().map(m -> m.lotId).collect(Collectors.toSet())).stream()
            .collect(Collectors.toMap(LotFacts::id, Function.identity()));
    // Whoever lets the stock choose the lot meanwhile waits, and is not refused for what came back.
    lots.values().stream().map(LotFacts::padTypeId).distinct().sorted().forEach(balances::holdType);
    // Whoever undoes the same line at the same moment waits here and then sees it done.
    lots.keySet().stream().sorted().forEach(balances::hold);
    Map<Long, Long> made = new HashMap<>();
    for (StockMovement line : wrong) {
      if (line.reason == MovementReason.REVERSAL) {
        throw new Refusal("reverses", "This line undoes another.", "Enter anew what took place.");
      }
      if (movements.count("reversesId", line.id) > 0) {
        throw new Refusal("reverses", "This line was undone before.");
      }
      StockMovement movement =
          PadStock.movement(lots.get(line.lotId), line.locationId, -line.packs);
      movement.reason = MovementReason.REVERSAL;
      movement.note = PadStock.text(reason);
      movement.reversesId = line.id;
      movement.orderLineId = line.orderLineId;
      if (WITH_PATIENT.contains(line.reason)) {
        movement.loanId = line.loanId;
        movement.patientId = line.patientId;
      }
      made.put(line.id, ledger.add(movement, lots.get(line.lotId).number(), happened).id);
      if (line.orderLineId != null) {
        SupplyOrderLine ordered = orderLines.findById(line.orderLineId);
        ordered.delivered -= line.packs;
        ordered.supplyOrder.state = OrderState.OPEN;
      }
    }
    em.flush();
    return ids.stream().map(made::get).toList();
  }

  private LotFacts lot(Long id) {
    return balances.facts(List.of(id)).stream()
        .findFirst()
        .orElseThrow(() -> new NotFound("There is no lot with this number."));
  }

  private LocalDate day(Long locationId, Happened happened) {
    return LocalDate.ofInstant(happened.at(), locations.zone(locationId));
  }
}
