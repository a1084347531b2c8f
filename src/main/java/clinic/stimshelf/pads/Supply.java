package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
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
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/** Orders to suppliers and what came of them. */
@Retried
@ApplicationScoped
public class Supply {
  @Inject SupplyOrderRows orders;
  @Inject PadTypeRows types;
  @Inject PadLots lots;
  @Inject PackScans scans;
  @Inject Ledger ledger;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject Actor actor;
  @Inject EntityManager em;

  /**
   * Writes down an order.
   *
   * @return its number
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public Long order(NewOrder wanted, Happened happened) {
    Refusals refusals = new Refusals();
    LocalDate today = LocalDate.ofInstant(happened.at(), locations.zone(wanted.locationId()));
    LocalDate on = wanted.orderedOn() == null ? today : wanted.orderedOn();
    if (on.isAfter(today)) {
      refusals.add("orderedOn", "An order is written down once it is placed, not before.");
    }
    if (wanted.expectedOn() != null && wanted.expectedOn().isBefore(on)) {
      refusals.add("expectedOn", "It cannot come before it is ordered.");
    }
    if (wanted.lines() == null || wanted.lines().isEmpty()) {
      refusals.add("lines", "Say which pads, and how many packs.");
      throw new Refusal(refusals.reasons());
    }
    Map<String, PadType> known = types(wanted.lines().stream().map(NewOrder.Line::code).toList());
    Set<String> seen = new HashSet<>();
    for (NewOrder.Line line : wanted.lines()) {
      if (!known.containsKey(line.code())) {
        refusals.add("code", "There is no pad type “" + line.code() + "”.");
      } else if (!seen.add(line.code())) {
        refusals.add("code", "“" + line.code() + "” stands twice in the order.");
      }
      packs(line.packs(), refusals);
      if (line.price() != null && line.price().signum() < 0) {
        refusals.add("price", "A price is 0 or more, not " + line.price() + ".");
      }
    }
    refusals.throwIfAny();
    SupplyOrder order = new SupplyOrder();
    order.locationId = wanted.locationId();
    order.supplier =
        PadStock.blank(wanted.supplier())
            ? known.get(wanted.lines().get(0).code()).supplier
            : wanted.supplier().strip();
    order.orderedOn = on;
    order.expectedOn = wanted.expectedOn();
    order.state = OrderState.OPEN;
    order.note = PadStock.text(wanted.note());
    order.orderedBy = actor.name();
    for (NewOrder.Line line : wanted.lines()) {
      SupplyOrderLine row = new SupplyOrderLine();
      row.supplyOrder = order;
      row.type = known.get(line.code());
      row.packs = line.packs();
      row.price = line.price() == null ? row.type.price : line.price();
      order.lines.add(row);
    }
    orders.persistAndFlush(order);
    trail.record(
        Subject.of("order", order.id), order.locationId, "ordered", happened, null, view(order));
    return order.id;
  }

  /**
   * Takes a delivery into the cupboard, for an order or without one. A part of an order is fine:
   * the rest stays on order.
   *
   * @return numbers of the ledger's lines
   */
  @Transactional
  public List<Long> receive(NewDelivery delivery, Happened happened) {
    Refusals refusals = new Refusals();
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(delivery.locationId()));
    SupplyOrder order = delivery.orderId() == null ? null : locked(delivery.orderId());
    if (order != null && !order.locationId.equals(delivery.locationId())) {
      refusals.add("orderId", "That order is for another location.");
    }
    if (order != null && order.state == OrderState.CANCELLED) {
      refusals.add("orderId", "That order was cancelled.", "Receive the packs without an order.");
    }
    if (order != null && day.isBefore(order.orderedOn)) {
      refusals.add("happenedAt", "It cannot have come before it was ordered.");
    }
    if (delivery.lines() == null || delivery.lines().isEmpty()) {
      refusals.add("lines", "Scan the packs that came.");
      throw new Refusal(refusals.reasons());
    }
    Map<String, PadType> known =
        types(delivery.lines().stream().map(NewDelivery.Line::code).toList());
    for (NewDelivery.Line line : delivery.lines()) {
      check(line, known, order, day, refusals);
    }
    refusals.throwIfAny();
    Map<String, SupplyOrderLine> ordered = new HashMap<>();
    if (order != null) {
      order.lines.forEach(line -> ordered.put(line.type.code, line));
    }
    List<Long> made = new ArrayList<>();
    for (NewDelivery.Line line : delivery.lines()) {
      PadType type = known.get(line.code());
      PadLot lot = lots.findOrMake(type, line.lot(), line.expiresOn(), PadStock.text(line.udi()));
      own(lot, delivery.consigned());
      scans.learn(type, PadStock.text(line.udi()));
      StockMovement movement = new StockMovement();
      movement.lotId = lot.id;
      movement.padTypeId = type.id;
      movement.locationId = delivery.locationId();
      movement.packs = line.packs();
      movement.reason = MovementReason.DELIVERY;
      movement.note = PadStock.text(delivery.note());
      SupplyOrderLine on = ordered.get(line.code());
      if (on != null) {
        movement.orderLineId = on.id;
        on.delivered += line.packs();
      }
      made.add(ledger.add(movement, lot.number, happened).id);
    }
    if (order != null) {
      settle(order);
      trail.record(
          Subject.of("order", order.id),
          order.locationId,
          "delivered",
          happened,
          null,
          view(order));
    }
    return made;
  }

  /** A lot is the supplier's or ours as a whole, so that nobody has to tell its packs apart. */
  private void own(PadLot lot, boolean consigned) {
    em.flush();
    if (lot.consigned == consigned) {
      return;
    }
    if (em.createQuery("select count(m) from StockMovement m where m.lotId = :lot", Long.class)
            .setParameter("lot", lot.id)
            .getSingleResult()
        > 0) {
      throw new Refusal(
          "consigned",
          "Lot "
              + lot.number
              + " is here already as "
              + (lot.consigned ? "the supplier’s." : "our own."),
          "Receive these packs the same way, or settle it with the supplier first.");
    }
    lot.consigned = consigned;
  }

  private static void check(
      NewDelivery.Line line,
      Map<String, PadType> known,
      SupplyOrder order,
      LocalDate day,
      Refusals refusals) {
    if (!known.containsKey(line.code())) {
      refusals.add("code", "There is no pad type “" + line.code() + "”.");
    } else if (order != null
        && order.lines.stream().noneMatch(on -> on.type.code.equals(line.code()))) {
      refusals.add(
          "code",
          "“" + line.code() + "” is not part of that order.",
          "Receive it without an order.");
    }
    if (PadStock.blank(line.lot()) || line.lot().strip().length() > 60) {
      refusals.add("lot", "A lot number has 1 to 60 characters, as printed on the pack.");
    }
    if (line.expiresOn() == null) {
      refusals.add("expiresOn", "The expiry is missing: a day such as 3/14/2027.");
    } else if (line.expiresOn().isBefore(day)) {
      refusals.add(
          "expiresOn", "Lot " + line.lot() + " has expired already.", "Send the packs back.");
    }
    if (line.udi() != null && line.udi().length() > 400) {
      refusals.add("udi", "A scanned code has at most 400 characters.");
    }
    packs(line.packs(), refusals);
  }

  private static void packs(int packs, Refusals refusals) {
    if (packs < 1 || packs > 100_000) {
      refusals.add("packs", "Packs must be a whole number from 1 to 100000, not " + packs + ".");
    }
  }

  /** Cancels what has not come yet. */
  @Transactional
  public void cancel(Long orderId, String reason, Happened happened) {
    if (PadStock.blank(reason)) {
      throw new Refusal("reason", "Say why the rest is cancelled.");
    }
    SupplyOrder order = locked(orderId);
    OrderView before = view(order);
    if (order.lines.stream().allMatch(line -> line.open() == 0)) {
      throw new Refusal("id", "Nothing of this order is still to come.");
    }
    order.lines.forEach(line -> line.cancelled += line.open());
    settle(order);
    order.note = reason.strip();
    trail.record(
        Subject.of("order", order.id),
        order.locationId,
        "cancelled",
        happened,
        before,
        view(order));
  }

  /**
   * The supplier was asked after an order that is late.
   *
   * @param day the new day that was named, or {@code null} if none was
   */
  @Transactional
  public void asked(Long orderId, LocalDate day, String words, Happened happened) {
    SupplyOrder order = locked(orderId);
    Refusals refusals = new Refusals();
    if (order.state != OrderState.OPEN) {
      refusals.add("id", "Nothing of this order is still to come.");
    }
    if (day != null && day.isBefore(locations.today(order.locationId))) {
      refusals.add("expectedOn", "The new day lies in the past.", "Name today or a later day.");
    }
    if (day == null && PadStock.blank(words)) {
      refusals.add("words", "Say what the supplier said, or the day that was named.");
    }
    refusals.throwIfAny();
    OrderView before = view(order);
    order.expectedOn = day == null ? order.expectedOn : day;
    order.note = PadStock.blank(words) ? order.note : words.strip();
    order.askedAt = happened.at();
    trail.record(
        Subject.of("order", order.id),
        order.locationId,
        "asked after",
        happened,
        before,
        view(order));
  }

  /**
   * The order is about to be sent.
   *
   * @return the order as it was
   * @throws Refusal if nothing of it is to come
   */
  @Transactional
  OrderView mailBegins(Long orderId, String to) {
    SupplyOrder order = locked(orderId);
    if (order.state != OrderState.OPEN) {
      throw new Refusal(
          "to",
          "This order is " + order.state.words() + "; nothing of it is to come.",
          "Make a new order.");
    }
    OrderView before = view(order);
    order.mailedTo = to;
    order.mailedAt = null;
    return before;
  }

  /** It was not sent. */
  @Transactional
  void mailFailed(Long orderId, OrderView before) {
    SupplyOrder order = locked(orderId);
    order.mailedTo = before.mailedTo();
    order.mailedAt = before.mailedAt();
  }

  /** It went to the supplier by e-mail, whose address is kept for the next time. */
  @Transactional
  void mailed(Long orderId, String to, Happened happened) {
    SupplyOrder order = locked(orderId);
    order.mailedTo = to;
    order.mailedAt = happened.at();
    if (order.supplier != null) {
      keepAddress(order.supplier, to);
    }
    trail.record(
        Subject.of("order", order.id), order.locationId, "e-mailed", happened, null, view(order));
  }

  private void keepAddress(String supplier, String to) {
    PadSupplier known = em.find(PadSupplier.class, supplier);
    if (known == null) {
      known = new PadSupplier();
      known.name = supplier;
      known.email = to;
      try {
        em.persist(known);
        em.flush();
      } catch (PersistenceException another) {
        throw new TryAgain("Another order to this supplier was sent at the same moment.", another);
      }
    }
    known.email = to;
  }

  /** The address orders to a supplier were last sent to, or {@code null}. */
  @Transactional
  public String addressOf(String supplier) {
    PadSupplier known = supplier == null ? null : em.find(PadSupplier.class, supplier);
    return known == null ? null : known.email;
  }

  /** Orders of the locations that should have come, the latest first. */
  @Transactional
  public List<OrderView> late(Collection<Long> locationIds) {
    return orders
        .list(
            "locationId in ?1 and state = ?2 order by orderedOn, id", locationIds, OrderState.OPEN)
        .stream()
        .map(this::view)
        .filter(OrderView::late)
        .sorted(Comparator.comparing(OrderView::lateDays).reversed())
        .toList();
  }

  private static void settle(SupplyOrder order) {
    if (order.lines.stream().allMatch(line -> line.open() == 0)) {
      order.state =
          order.lines.stream().allMatch(line -> line.delivered == 0)
              ? OrderState.CANCELLED
              : OrderState.DELIVERED;
    }
  }

  /**
   * @throws NotFound if there is none
   */
  @Transactional
  public OrderView byId(Long orderId) {
    SupplyOrder order = orders.findById(orderId);
    if (order == null) {
      throw new NotFound("There is no order with this number.");
    }
    return view(order);
  }

  /** Number of the location an order is for. */
  @Transactional
  public Long locationOf(Long orderId) {
    SupplyOrder order = orders.findById(orderId);
    if (order == null) {
      throw new NotFound("There is no order with this number.");
    }
    return order.locationId;
  }

  /**
   * Orders of the locations, newest first.
   *
   * @param state only these, or {@code null} for all
   */
  @Transactional
  public Page<OrderView> list(Collection<Long> locationIds, OrderState state, Paging paging) {
    String where = "locationId in ?1" + (state == null ? "" : " and state = ?2");
    Object[] values =
        state == null ? new Object[] {locationIds} : new Object[] {locationIds, state};
    List<OrderView> items =
        orders
            .find(where + " order by orderedOn desc, id desc", values)
            .page(paging.page(), paging.size())
            .stream()
            .map(this::view)
            .toList();
    return new Page<>(items, paging.page(), paging.size(), orders.count(where, values));
  }

  private SupplyOrder locked(Long orderId) {
    SupplyOrder order = em.find(SupplyOrder.class, orderId, LockModeType.PESSIMISTIC_WRITE);
    if (order == null) {
      throw new NotFound("There is no order with this number.");
    }
    return order;
  }

  private Map<String, PadType> types(List<String> codes) {
    return types
        .list("code in ?1", codes.stream().filter(Objects::nonNull).distinct().toList())
        .stream()
        .collect(Collectors.toMap(type -> type.code, type -> type));
  }

  private OrderView view(SupplyOrder order) {
    LocationView location = locations.byId(order.locationId);
    return new OrderView(
        String.valueOf(order.id),
        location.code(),
        order.supplier,
        order.orderedOn,
        order.expectedOn,
        order.state,
        order.note,
        order.orderedBy,
        dueOn(order),
        lateDays(order),
        order.mailedTo,
        order.mailedAt,
        order.askedAt,
        order.lines.stream()
            .map(
                line ->
                    new OrderView.Line(
                        line.type.code,
                        line.packs,
                        line.delivered,
                        line.cancelled,
                        line.open(),
                        line.price))
            .toList());
  }

  /** Without a day of the supplier's the slowest pad type's usual days count. */
  private static LocalDate dueOn(SupplyOrder order) {
    return order.expectedOn != null
        ? order.expectedOn
        : order.orderedOn.plusDays(
            order.lines.stream().mapToInt(line -> line.type.leadDays).max().orElse(0));
  }

  private int lateDays(SupplyOrder order) {
    return order.state != OrderState.OPEN
        ? 0
        : (int)
            Math.max(0, ChronoUnit.DAYS.between(dueOn(order), locations.today(order.locationId)));
  }
}
