package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Pads: what do we order, and why? */
@Path("/pads")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class PadsPages {
  private static final int LAST_LINES = 10;

  @Inject PadCatalog catalog;
  @Inject Reorders reorders;
  @Inject PadStock stock;
  @Inject Supply supply;
  @Inject PadWear wear;
  @Inject Transfers transfers;
  @Inject MovementLog log;
  @Inject Trail trail;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  /**
   * Every pad type of the location.
   *
   * @param idle those of which nothing is here, coming, owed or used, so that nothing is drawn
   */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadList(
      String place,
      String headline,
      String lead,
      List<PadRow> rows,
      List<PadRow> idle,
      List<WearView> suspects,
      List<OrderView> late,
      List<DueFrom> due,
      boolean several,
      boolean orders,
      boolean handles)
      implements TemplateInstance {}

  /** One pad type. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadOne(
      LocationView place,
      LocalDate today,
      PadRow row,
      List<LotView> lots,
      List<OrderView> coming,
      WearView wear,
      Page<MovementView> last,
      List<Elsewhere> elsewhere,
      List<TrailEntry> trail,
      boolean orders,
      boolean handles)
      implements TemplateInstance {}

  /** Pad types that are due from one supplier. */
  record DueFrom(String supplier, int types) {
    /** As it stands in an address. */
    public String query() {
      return URLEncoder.encode(supplier, StandardCharsets.UTF_8);
    }
  }

  private static List<DueFrom> due(List<PadRow> rows) {
    return rows.stream()
        .filter(row -> row.type().supplier() != null)
        .collect(Collectors.groupingBy(row -> row.type().supplier(), Collectors.counting()))
        .entrySet()
        .stream()
        .filter(entry -> entry.getValue() > 1)
        .map(entry -> new DueFrom(entry.getKey(), entry.getValue().intValue()))
        .sorted(Comparator.comparing(DueFrom::supplier))
        .toList();
  }

  /** What another location has. */
  record Elsewhere(String place, PadPosition position) {}

  @GET
  public TemplateInstance list() {
    Long here = signedIn.locationOr(null);
    List<PadRow> all = rows(here);
    List<PadRow> rows = all.stream().filter(row -> !row.idle()).toList();
    List<PadRow> due = rows.stream().filter(PadRow::toOrder).toList();
    return new PadList(
        locations.byId(here).name(),
        headline(all, due),
        lead(all, rows, due),
        rows,
        all.stream().filter(PadRow::idle).toList(),
        wear.withProposals(here),
        supply.late(List.of(here)),
        due(due),
        signedIn.locationIds().size() > 1,
        signedIn.has(Roles.MANAGER),
        handles());
  }

  @GET
  @Path("{code}")
  public TemplateInstance one(@PathParam("code") String code) {
    Long here = signedIn.locationOr(null);
    PadTypeView type = catalog.byCode(code);
    PadPosition position = reorders.position(code, here);
    List<Elsewhere> elsewhere = new ArrayList<>();
    for (Long place : signedIn.locationIds()) {
      if (!place.equals(here)) {
        elsewhere.add(new Elsewhere(locations.byId(place).name(), reorders.position(code, place)));
      }
    }
    return new PadOne(
        locations.byId(here),
        locations.today(here),
        PadRow.of(
            type,
            position,
            reorders.reorder(code, here),
            PadPicture.scale(List.of(type)),
            StockBar.scale(List.of(position))),
        stock.lotsAt(code, here),
        supply.list(List.of(here), OrderState.OPEN, Paging.of(0, 200)).items().stream()
            .filter(
                order ->
                    order.lines().stream()
                        .anyMatch(line -> line.code().equals(code) && line.onOrder() > 0))
            .toList(),
        wear.of(code, here),
        log.list(
            new MovementLog.Wanted(List.of(here), code, null, null, null, null, null),
            Paging.of(0, LAST_LINES)),
        elsewhere,
        signedIn.has(Roles.MANAGER) ? trail.of(Subject.of("pad-type", code)) : List.of(),
        signedIn.has(Roles.MANAGER),
        handles());
  }

  /** Therapists look at pads and take from the drawer; packs are handled by the others. */
  private boolean handles() {
    return signedIn.has(Roles.FRONT_DESK) || signedIn.has(Roles.MANAGER);
  }

  private List<PadRow> rows(Long here) {
    List<PadTypeView> types = catalog.active();
    List<Reorders.Both> all = reorders.all(here);
    Map<String, PadTypeView> byCode =
        types.stream().collect(Collectors.toMap(PadTypeView::code, Function.identity()));
    Map<String, List<Transfers.Proposal>> moves = transfers.into(here, all, signedIn.locationIds());
    double padScale = PadPicture.scale(types);
    double barScale = StockBar.scale(all.stream().map(Reorders.Both::position).toList());
    return all.stream()
        .map(
            both ->
                PadRow.of(
                        byCode.get(both.position().code()),
                        both.position(),
                        both.answer(),
                        padScale,
                        barScale)
                    .with(moves.getOrDefault(both.position().code(), List.of())))
        .sorted(Comparator.comparing((PadRow row) -> !row.toOrder()))
        .toList();
  }

  private static String headline(List<PadRow> rows, List<PadRow> due) {
    if (rows.isEmpty()) {
      return "No pads yet";
    }
    return switch (due.size()) {
      case 0 -> "Nothing to order today";
      case 1 -> "Order one pad type today";
      default -> "Order " + due.size() + " pad types today";
    };
  }

  private static String lead(List<PadRow> all, List<PadRow> rows, List<PadRow> due) {
    if (all.isEmpty()) {
      return "Pad types, their lots and what to order will stand here. Begin with a pad type, or"
          + " bring the tables in under Settings, Import.";
    }
    if (rows.isEmpty()) {
      return "No packs are here yet. Receive the first ones, or move some here.";
    }
    if (due.isEmpty()) {
      return "Every pad type is above its order level.";
    }
    PadRow first = due.get(0);
    String rest =
        due.size() == rows.size()
            ? ""
            : due.size() == 1
                ? " Everything else is above its order level."
                : " The others are above their order levels.";
    return first.type().name()
        + " stands at "
        + PadRow.packs(first.position().position())
        + " with what is coming and owed; its order level is "
        + first.position().reorderPoint()
        + "."
        + rest;
  }
}
