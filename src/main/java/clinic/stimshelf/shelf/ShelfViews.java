package clinic.stimshelf.shelf;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Puts units together with their kit and running use: three questions to the database in all. */
@ApplicationScoped
class ShelfViews {
  @Inject KitItems kitItems;
  @Inject UnitUses uses;
  @Inject Locations locations;
  @Inject Clock clock;

  List<UnitView> of(Collection<Unit> units) {
    Instant now = clock.instant();
    List<Long> ids = units.stream().map(unit -> unit.id).toList();
    Map<Long, UnitUseRow> running = uses.running(ids);
    Map<Long, List<KitItem>> kits = kits(ids);
    Map<Long, LocationView> places =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, Function.identity()));
    return units.stream()
        .map(
            unit ->
                view(
                    unit,
                    places.get(unit.locationId),
                    running.get(unit.id),
                    kits.getOrDefault(unit.id, List.of()),
                    now))
        .toList();
  }

  UnitView of(Unit unit) {
    return of(List.of(unit)).get(0);
  }

  List<KitItem> kit(Long unitId) {
    return kits(List.of(unitId)).getOrDefault(unitId, List.of());
  }

  Map<Long, List<KitItem>> kits(List<Long> unitIds) {
    return unitIds.isEmpty()
        ? Map.of()
        : kitItems
            .list(
                "unitId in ?1 and state <> ?2 order by unitId, position, id",
                unitIds,
                PartState.REMOVED)
            .stream()
            .collect(Collectors.groupingBy(item -> item.unitId));
  }

  private static UnitView view(
      Unit unit, LocationView place, UnitUseRow use, List<KitItem> kit, Instant now) {
    LocalDate today = LocalDate.ofInstant(now, place.zone());
    return new UnitView(
        unit.id,
        unit.tag,
        unit.serial,
        unit.kind.code,
        unit.kind.name,
        unit.kind.channels,
        unit.kind.connector,
        unit.kind.outputScale,
        unit.kind.lendsOut,
        unit.locationId,
        place.code(),
        unit.spot == null ? null : unit.spot.id,
        unit.spot == null ? null : unit.spot.name,
        unit.stateAt(now),
        unit.stateSinceAt(now),
        unit.stateReason,
        unit.purpose.word(),
        unit.nextTestOn,
        unit.nextTestOn == null || today.isAfter(unit.nextTestOn),
        unit.chargingSince,
        unit.chargedAt,
        unit.holdsChargeAt(now),
        unit.wipeCountsAt != null && now.isBefore(unit.cleanFrom()) ? unit.cleanFrom() : null,
        unit.soilingAt(now),
        unit.heldUntil != null && now.isBefore(unit.heldUntil) ? unit.heldUntil : null,
        unit.packSwollen,
        unit.needsInspection,
        UnitUse.of(use),
        unit.reservedKind,
        unit.reservedId,
        unit.useCounter,
        unit.acquiredOn,
        unit.retiredOn,
        unit.ownerWords,
        kit.stream().map(KitItemView::of).toList(),
        unit.version);
  }
}
