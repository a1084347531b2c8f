package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Packs that leave the cupboard and come back. Owns which may. */
@Retried
@ApplicationScoped
public class PadStock {
  @Inject PadCatalog catalog;
  @Inject Balances balances;
  @Inject Ledger ledger;
  @Inject StockKeeping keeping;
  @Inject TreatmentDrawers drawers;
  @Inject Reorders reorders;
  @Inject Locations locations;
  @Inject EntityManager em;

  /** The lots a location has of a type, first expiry first. */
  @Transactional
  public List<LotView> lotsAt(String padCode, Long locationId) {
    Long type = catalog.row(padCode).id;
    LocalDate today = locations.today(locationId);
    Map<Long, Integer> packs = balances.ofTypes(List.of(type), locationId);
    return balances.held(List.of(type), locationId).stream()
        .map(lot -> view(lot, packs.getOrDefault(lot.id(), 0), today))
        .toList();
  }

  /**
   * Packs to take, first expiry first. Fewer than asked for if the cupboard has no more.
   *
   * @param packs how many are wanted
   * @param usableUntil the day up to which they must not have expired
   */
  @Transactional
  public List<PackLine> propose(String padCode, Long locationId, int packs, LocalDate usableUntil) {
    Long type = catalog.row(padCode).id;
    LocalDate today = locations.today(locationId);
    return LeavingRules.propose(
        balances.held(List.of(type), locationId),
        balances.ofTypes(List.of(type), locationId),
        packs,
        usableUntil.isBefore(today) ? today : usableUntil);
  }

  /** Everything that stands against these packs leaving; empty if they may. */
  @Transactional
  public List<Reason> whyNotGive(Long locationId, List<PackLine> lines, Instant at) {
    List<LotFacts> lots = concerned(lines, locationId);
    return LeavingRules.against(lots, packsOf(lots, locationId), lines, day(locationId, at), at);
  }

  /**
   * Gives packs to a patient. Of two people who want the last pack at the same moment one gets it;
   * the other is refused and nothing of theirs is changed.
   *
   * @param loanId the loan they go with; {@code null} if none
   * @return numbers of the ledger's lines
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public List<Long> give(
      Long loanId, Long patientId, Long locationId, List<PackLine> lines, Happened happened) {
    return leave(
        lines,
        locationId,
        happened,
        (line, movement) -> {
          movement.reason = MovementReason.GIVEN;
          movement.loanId = loanId;
          movement.patientId = patientId;
        });
  }

  /** Pads used up while the patient is treated in the clinic. */
  @Transactional
  public List<Long> useInAppointment(
      Long patientId, Long locationId, List<PackLine> lines, Happened happened) {
    return leave(
        lines,
        locationId,
        happened,
        (line, movement) -> {
          movement.reason = MovementReason.APPOINTMENT;
          movement.patientId = patientId;
        });
  }

  /**
   * Takes back sealed packs that were at a home, where the location allows it. Opened packs never
   * come back.
   */
  @Transactional
  public void takeBackSealed(
      Long loanId, Long patientId, Long locationId, List<PackLine> lines, Happened happened) {
    Refusals refusals = new Refusals();
    if (!locations.settings(locationId).yes(Setting.SEALED_PACKS_RETURN)) {
      refusals.add(
          "packs",
          "This location does not put packs from a home back into the cupboard.",
          "Leave them with the patient or throw them away.");
    }
    Map<Long, Integer> given =
        given(loanId, patientId).stream()
            .collect(Collectors.toMap(GivenPacks::lotId, GivenPacks::packs, Integer::sum));
    Map<Long, LotFacts> lots = byId(lines);
    for (PackLine line : lines) {
      LotFacts lot = lots.get(line.lotId());
      if (lot == null) {
        refusals.add("lotId", "There is no lot with the number " + line.lotId() + ".");
      } else if (line.packs() < 1) {
        refusals.add("packs", "Packs must be 1 or more, not " + line.packs() + ".");
      } else {
        int had = given.merge(lot.id(), -line.packs(), Integer::sum) + line.packs();
        if (had < line.packs()) {
          refusals.add(
              "packs",
              "Of lot "
                  + lot.number()
                  + " this patient has "
                  + Math.max(0, had)
                  + " packs, not "
                  + line.packs()
                  + ".",
              "Count again, or look whose packs these are.");
        }
        if (lot.expiresOn().isBefore(day(locationId, happened.at()))) {
          refusals.add("lotId", "Lot " + lot.number() + " has expired.", "Throw the packs away.");
        }
      }
    }
    refusals.throwIfAny();
    for (PackLine line : sorted(lines)) {
      StockMovement movement = movement(lots.get(line.lotId()), locationId, line.packs());
      movement.reason = MovementReason.RETURNED_SEALED;
      movement.loanId = loanId;
      movement.patientId = patientId;
      ledger.add(movement, lots.get(line.lotId()).number(), happened);
    }
  }

  /**
   * Takes pads outside of programs.
   *
   * @return numbers of the ledger's lines
   */
  @Transactional
  public List<Long> drawerTake(DrawerTake take, Happened happened) {
    Refusals refusals = new Refusals();
    if (take.reason() == null) {
      refusals.add("drawerReason", "Say what the pads are for.");
    } else if (take.reason() == DrawerReason.OTHER && blank(take.note())) {
      refusals.add("note", "Say in a word what the pads are for.");
    }
    if (take.packs() < 1) {
      refusals.add("packs", "Packs must be 1 or more, not " + take.packs() + ".");
    }
    if (take.lotId() == null && blank(take.code())) {
      refusals.add("code", "Which pads? Scan the pack, or choose the type.");
    }
    refusals.throwIfAny();
    if (take.lotId() == null) {
      // Whoever takes at the same moment takes the next lot, not a refusal.
      balances.holdType(catalog.row(take.code()).id);
    }
    List<PackLine> lines =
        take.lotId() != null
            ? List.of(new PackLine(take.lotId(), take.packs(), take.laterLotReason()))
            : propose(
                take.code(),
                take.locationId(),
                take.packs(),
                day(take.locationId(), happened.at()));
    int found = lines.stream().mapToInt(PackLine::packs).sum();
    if (found < take.packs()) {
      throw new Refusal(
          "packs",
          "Only "
              + found
              + " usable packs of "
              + take.code()
              + " are here, not "
              + take.packs()
              + ".",
          "Take fewer, or count the drawer.");
    }
    if (take.drawerId() != null) {
      drawers.taken(take.drawerId(), take.locationId(), take.packs(), happened);
    }
    return leave(
        lines,
        take.locationId(),
        happened,
        (line, movement) -> {
          movement.reason = MovementReason.DRAWER_TAKE;
          movement.drawerReason = take.reason();
          movement.note = text(take.note());
          movement.patientId = take.patientId();
        });
  }

  /** What the location has of a type, what is to come, and when to order. */
  @Transactional
  public PadPosition position(String padCode, Long locationId) {
    return reorders.position(padCode, locationId);
  }

  /** Undoes a line of the ledger that was entered wrongly. */
  @Transactional
  public Long reverse(Long movementId, String reason, Happened happened) {
    return keeping.reverse(movementId, reason, happened);
  }

  /** Undoes everything that was given with a loan which was entered wrongly. */
  @Transactional
  public void reverseGiven(Long loanId, String reason, Happened happened) {
    keeping.reverseAll(
        em.createQuery(
                "select m.id from StockMovement m where m.loanId = :loan and m.reason in :reasons"
                    + " and not exists (select 1 from StockMovement r where r.reversesId = m.id)"
                    + " order by m.packs, m.id",
                Long.class)
            .setParameter("loan", loanId)
            .setParameter("reasons", Set.of(MovementReason.GIVEN, MovementReason.RETURNED_SEALED))
            .getResultList(),
        reason,
        happened);
  }

  /** What a loan's patient has of each lot: given less what came back sealed. */
  @Transactional
  public List<GivenPacks> givenWith(Long loanId) {
    return given(loanId, null);
  }

  List<GivenPacks> given(Long loanId, Long patientId) {
    return em.createQuery(
            "select l.id, l.type.code, l.number, m.patientId, m.loanId, sum(m.packs)"
                + " from StockMovement m, PadLot l where l.id = m.lotId and m.reason in :reasons and "
                + (loanId != null ? "m.loanId = :key" : "m.patientId = :key and m.loanId is null")
                + " group by l.id, l.type.code, l.number, m.patientId, m.loanId"
                + " having sum(m.packs) < 0 order by l.type.code, l.number",
            Object[].class)
        .setParameter("reasons", PATIENT_REASONS)
        .setParameter("key", loanId != null ? loanId : patientId)
        .getResultStream()
        .map(PadStock::givenPacks)
        .toList();
  }

  static final Set<MovementReason> PATIENT_REASONS =
      Set.of(MovementReason.GIVEN, MovementReason.RETURNED_SEALED, MovementReason.REVERSAL);

  static GivenPacks givenPacks(Object[] row) {
    return new GivenPacks(
        (Long) row[0],
        (String) row[1],
        (String) row[2],
        (Long) row[3],
        (Long) row[4],
        -((Number) row[5]).intValue());
  }

  interface Fill {
    void fill(PackLine line, StockMovement movement);
  }

  /** Takes the packs first, which holds their balances, and then looks whether they may leave. */
  private List<Long> leave(List<PackLine> lines, Long locationId, Happened happened, Fill fill) {
    if (lines.isEmpty()) {
      return List.of();
    }
    Map<Long, LotFacts> named = byId(lines);
    Map<Long, Integer> taken = new LinkedHashMap<>();
    for (PackLine line : sorted(lines)) {
      if (named.containsKey(line.lotId())
          && line.packs() > 0
          && balances.take(line.lotId(), locationId, line.packs())) {
        taken.merge(line.lotId(), line.packs(), Integer::sum);
      }
    }
    List<LotFacts> lots = concerned(lines, locationId);
    Map<Long, Integer> before = packsOf(lots, locationId);
    taken.forEach((lot, packs) -> before.merge(lot, packs, Integer::sum));
    Refusals refusals = new Refusals();
    refusals.addAll(
        LeavingRules.against(lots, before, lines, day(locationId, happened.at()), happened.at()));
    refusals.throwIfAny();
    List<Long> ids = new ArrayList<>();
    for (PackLine line : sorted(lines)) {
      LotFacts lot = named.get(line.lotId());
      StockMovement movement = movement(lot, locationId, -line.packs());
      movement.laterLotReason = text(line.laterLotReason());
      fill.fill(line, movement);
      ids.add(ledger.addMoved(movement, lot.number(), happened).id);
    }
    return ids;
  }

  private List<LotFacts> concerned(List<PackLine> lines, Long locationId) {
    List<LotFacts> named =
        balances.facts(lines.stream().map(PackLine::lotId).collect(Collectors.toSet()));
    Set<Long> types = named.stream().map(LotFacts::padTypeId).collect(Collectors.toSet());
    if (types.isEmpty()) {
      return named;
    }
    List<LotFacts> all = new ArrayList<>(balances.held(types, locationId));
    Set<Long> there = new HashSet<>(all.stream().map(LotFacts::id).toList());
    named.stream().filter(lot -> !there.contains(lot.id())).forEach(all::add);
    return all;
  }

  private Map<Long, Integer> packsOf(List<LotFacts> lots, Long locationId) {
    Set<Long> types = lots.stream().map(LotFacts::padTypeId).collect(Collectors.toSet());
    return types.isEmpty() ? new LinkedHashMap<>() : balances.ofTypes(types, locationId);
  }

  private Map<Long, LotFacts> byId(List<PackLine> lines) {
    return balances.facts(lines.stream().map(PackLine::lotId).collect(Collectors.toSet())).stream()
        .collect(Collectors.toMap(LotFacts::id, Function.identity()));
  }

  /** In one order for everybody, so that two transactions never wait for each other. */
  private static List<PackLine> sorted(List<PackLine> lines) {
    return lines.stream()
        .filter(line -> line.lotId() != null)
        .sorted(Comparator.comparing(PackLine::lotId))
        .toList();
  }

  private LocalDate day(Long locationId, Instant at) {
    return LocalDate.ofInstant(at, locations.zone(locationId));
  }

  static StockMovement movement(LotFacts lot, Long locationId, int packs) {
    StockMovement movement = new StockMovement();
    movement.lotId = lot.id();
    movement.padTypeId = lot.padTypeId();
    movement.locationId = locationId;
    movement.packs = packs;
    return movement;
  }

  static LotView view(LotFacts lot, int packs, LocalDate today) {
    return new LotView(
        lot.id(),
        lot.code(),
        lot.number(),
        lot.expiresOn(),
        lot.udi(),
        lot.state(),
        lot.stateReason(),
        packs,
        lot.usable(today),
        lot.consigned());
  }

  static boolean blank(String text) {
    return text == null || text.isBlank();
  }

  static String text(String text) {
    return blank(text) ? null : text.strip();
  }
}
