package clinic.stimshelf.pads;

import clinic.stimshelf.calc.demand.LeadTime;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/** When to order which pads, how many, and why. */
@ApplicationScoped
public class Reorders {
  private static final int REMEMBERED = 500;
  private static final int LOOKED_BACK_DAYS = 30;
  private static final int LOOKED_AHEAD_DAYS = 120;

  @Inject PadCatalog catalog;
  @Inject PadTypeRows types;
  @Inject PadHistory history;
  @Inject Balances balances;
  @Inject Locations locations;
  @Inject @Any Instance<DatedDemand> rooms;

  /** Answers by what they rest on: as long as nothing changes, nothing is reckoned twice. */
  private final Map<ReorderFacts, ReorderView> remembered =
      Collections.synchronizedMap(
          new LinkedHashMap<>(64, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<ReorderFacts, ReorderView> eldest) {
              return size() > REMEMBERED;
            }
          });

  /** A pad type at a location: what there is of it, and when to order. */
  public record Both(PadPosition position, ReorderView answer) {}

  /** Every pad type in use at a location, by name. */
  @Transactional
  public List<Both> all(Long locationId) {
    List<PadType> all = types.list("active = true order by name");
    return facts(all, locationId).entrySet().stream()
        .map(
            entry -> new Both(position(entry.getKey(), entry.getValue()), answer(entry.getValue())))
        .toList();
  }

  /** The positions alone. */
  @Transactional
  public List<PadPosition> positions(Long locationId) {
    return all(locationId).stream().map(Both::position).toList();
  }

  /**
   * One pad type at a location.
   *
   * @throws clinic.stimshelf.web.NotFound if there is no such type
   */
  @Transactional
  public PadPosition position(String padCode, Long locationId) {
    PadType type = catalog.row(padCode);
    return position(type, facts(List.of(type), locationId).get(type));
  }

  /** When to order it, how much, and why. */
  @Transactional
  public ReorderView reorder(String padCode, Long locationId) {
    PadType type = catalog.row(padCode);
    return answer(facts(List.of(type), locationId).get(type));
  }

  private ReorderView answer(ReorderFacts facts) {
    ReorderView known = remembered.get(facts);
    if (known == null) {
      known = Reckoning.of(facts);
      remembered.put(facts, known);
    }
    return known;
  }

  private PadPosition position(PadType type, ReorderFacts facts) {
    ReorderView answer = answer(facts);
    double committed =
        answer.reasons().stream()
            .filter(reason -> reason.kind().equals("program"))
            .mapToDouble(reason -> reason.packs().doubleValue())
            .sum();
    return new PadPosition(
        type.code,
        facts.location(),
        type.name,
        facts.onHand(),
        facts.quarantined(),
        facts.expired(),
        facts.owed(),
        facts.onOrder(),
        facts.position(),
        Math.round(committed * 100) / 100.0,
        answer.reorderPoint(),
        answer.orderQuantity(),
        answer.coverDays());
  }

  private Map<PadType, ReorderFacts> facts(List<PadType> wanted, Long locationId) {
    Map<PadType, ReorderFacts> all = new LinkedHashMap<>();
    if (wanted.isEmpty()) {
      return all;
    }
    List<Long> ids = wanted.stream().map(type -> type.id).toList();
    LocationView location = locations.byId(locationId);
    LocationSettings settings = locations.settings(locationId);
    LocalDate today = locations.today(locationId);
    Map<Long, List<PadHistory.OpenOrder>> onOrder = history.onOrder(locationId, ids);
    int review = settings.whole(Setting.REVIEW_DAYS);
    PadHistory.Whole past =
        history.whole(locationId, today, location.zone(), firstDays(wanted, review));
    Map<Long, List<ReorderFacts.LotHeld>> lots = lots(ids, locationId);
    Map<String, List<DatedPacks>> dated = new HashMap<>();
    Map<Long, Integer> owed = new HashMap<>();
    Treatments treatments = Treatments.NONE;
    for (DatedDemand room : rooms) {
      treatments =
          treatments.and(
              room.treatments(
                  locationId, today.minusDays(past.days()), today.plusDays(LOOKED_AHEAD_DAYS)));
      room
          .dated(locationId, today.minusDays(LOOKED_BACK_DAYS), today.plusDays(LOOKED_AHEAD_DAYS))
          .stream()
          .filter(packs -> !packs.alreadyOwed() && packs.packs() > 0)
          .forEach(
              packs ->
                  dated.computeIfAbsent(packs.padCode(), code -> new ArrayList<>()).add(packs));
      room.owed(ids, locationId).forEach((type, packs) -> owed.merge(type, packs, Integer::sum));
    }
    double noShow = treatments.noShow(settings.number(Setting.NO_SHOW_WITHOUT_HISTORY));
    for (PadType type : wanted) {
      PadHistory.Past ofType = past.pasts().getOrDefault(type.id, PadHistory.Past.empty());
      List<Integer> lead = past.leadDays().getOrDefault(type.id, List.of());
      all.put(
          type,
          new ReorderFacts(
              type.code,
              location.code(),
              today,
              lots.getOrDefault(type.id, List.of()),
              owed.getOrDefault(type.id, 0),
              coming(onOrder.getOrDefault(type.id, List.of()), lead, type.leadDays, today),
              List.copyOf(dated.getOrDefault(type.code, List.of())),
              past.days(),
              ofType.drawerTakes(),
              ofType.appointmentUses(),
              treatments,
              noShow,
              ofType.firstDays(),
              ofType.draws(),
              lead,
              type.leadDays,
              past.keptDays().getOrDefault(type.id, type.shelfDays),
              review,
              settings.number(Setting.SERVICE_LEVEL),
              settings.number(Setting.EXPIRY_CERTAINTY),
              type.packsPerCase,
              type.minimumOrder,
              optional(type.orderCost),
              optional(type.holdingCost)));
    }
    return all;
  }

  /**
   * A program that begins at any time within lead time and review draws, on average, what falls
   * into half of that.
   */
  private static int firstDays(List<PadType> wanted, int review) {
    double lead = wanted.stream().mapToInt(type -> type.leadDays).average().orElse(0);
    return (int) Math.max(1, Math.round((lead + review) / 2));
  }

  private Map<Long, List<ReorderFacts.LotHeld>> lots(List<Long> typeIds, Long locationId) {
    Map<Long, Integer> packs = balances.ofTypes(typeIds, locationId);
    Map<Long, List<ReorderFacts.LotHeld>> lots = new HashMap<>();
    for (LotFacts lot : balances.held(typeIds, locationId)) {
      lots.computeIfAbsent(lot.padTypeId(), type -> new ArrayList<>())
          .add(
              new ReorderFacts.LotHeld(
                  lot.number(),
                  lot.expiresOn(),
                  lot.state() != LotState.FREE,
                  packs.getOrDefault(lot.id(), 0)));
    }
    return lots;
  }

  /** What is late is expected tomorrow; nobody knows better. */
  private static List<ReorderFacts.Coming> coming(
      List<PadHistory.OpenOrder> open, List<Integer> lead, int prior, LocalDate today) {
    long usual = Math.round(LeadTime.observed(lead, LeadTime.fixed(prior)).mean());
    return open.stream()
        .map(
            order -> {
              LocalDate day =
                  order.expectedOn() == null
                      ? order.orderedOn().plusDays(usual)
                      : order.expectedOn();
              return new ReorderFacts.Coming(
                  day.isAfter(today) ? day : today.plusDays(1), order.packs());
            })
        .toList();
  }

  private static OptionalDouble optional(BigDecimal amount) {
    return amount == null ? OptionalDouble.empty() : OptionalDouble.of(amount.doubleValue());
  }
}
