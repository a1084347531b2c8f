package clinic.stimshelf.pads;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** What the pages of this room have in common. */
@ApplicationScoped
class Shown {
  static final String HTML = "text/html;charset=UTF-8";

  /** Words that name pages below /pads, so that no pad type may be called that. */
  static final Set<String> KEPT_WORDS =
      Set.of(
          "all",
          "counts",
          "receive",
          "drawer-take",
          "move",
          "count",
          "orders",
          "ledger",
          "lots",
          "types",
          "wear",
          "expiry",
          "drawers",
          "transfers");

  @Inject PadCatalog catalog;
  @Inject EventTimes times;
  @Inject Locations locations;

  static Response refused(TemplateInstance page) {
    return Response.status(422).type(HTML).entity(page.render()).build();
  }

  static Response to(String path) {
    return Response.seeOther(URI.create(path)).build();
  }

  /** The form once more, with the refusal's reasons, each of them once. */
  static Form again(Form form, Refusal refusal) {
    return form.ok() ? form.refused(refusal) : form;
  }

  /** A lot as a choice. */
  static Option option(LotStock lot) {
    return new Option(
        lot.id(), lot.code() + ", lot " + lot.lot() + ", expires " + Days.full(lot.expiresOn()));
  }

  /** An order as a choice. */
  static Option option(OrderView order) {
    return new Option(
        order.id(),
        Days.full(order.orderedOn())
            + (order.supplier() == null ? "" : ", " + order.supplier())
            + ": "
            + order.lines().stream()
                .filter(line -> line.onOrder() > 0)
                .map(line -> line.onOrder() + " " + line.code())
                .collect(Collectors.joining(", ")));
  }

  /** When an event took place, as the two fields of a form say: both may be empty. */
  Happened happened(Form form, Long locationId) {
    ZoneId zone = locations.zone(locationId);
    LocalDateTime typed = form.optionalDayAndTime("happenedAt", "The time");
    Instant at = typed == null ? null : typed.atZone(zone).toInstant();
    Refusals refusals = new Refusals();
    Happened happened = times.of(at, form.value("lateReason"), zone, refusals);
    refusals.throwIfAny();
    return happened;
  }

  /** The pad types in use as a choice. */
  List<Option> types() {
    return catalog.active().stream()
        .map(type -> new Option(type.code(), type.name() + " (" + type.code() + ")"))
        .toList();
  }
}
