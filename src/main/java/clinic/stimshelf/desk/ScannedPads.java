package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.desk.ScanAnswer.Action;
import clinic.stimshelf.desk.ScanAnswer.Match;
import clinic.stimshelf.desk.ScanAnswer.UdiFields;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.LotFactsView;
import clinic.stimshelf.pads.LotState;
import clinic.stimshelf.pads.LotStock;
import clinic.stimshelf.pads.OrderView;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.pads.Supply;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What can be done with a pad pack, a lot or an order that was scanned or typed. */
@ApplicationScoped
class ScannedPads {
  private static final Pattern ORDER =
      Pattern.compile("order\\s*#?\\s*(\\d{1,18})", Pattern.CASE_INSENSITIVE);

  @Inject PadLots lots;
  @Inject Supply supply;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A pack's label: which lot it is of, and whether it may leave. */
  ScanAnswer answer(Udi udi) {
    List<String> problems = new ArrayList<>(udi.problems());
    List<LotFactsView> found = udi.lot() == null ? List.of() : lots.byNumber(udi.lot());
    if (found.isEmpty()) {
      problems.add(
          udi.lot() == null
              ? "The label names no lot, so it cannot be told which packs these are."
              : "No lot "
                  + udi.lot()
                  + " was received yet. If it just came, receive the delivery of its order.");
    }
    return lotAnswer(found, udi, problems);
  }

  /** A lot number that somebody typed; {@code null} if no lot has it. */
  ScanAnswer lotNumber(String text) {
    List<LotFactsView> found = lots.byNumber(text);
    return found.isEmpty() ? null : lotAnswer(found, null, new ArrayList<>());
  }

  private ScanAnswer lotAnswer(List<LotFactsView> found, Udi udi, List<String> problems) {
    List<Match> matches = new ArrayList<>();
    List<Action> actions = new ArrayList<>();
    for (LotFactsView lot : found) {
      LotStock stock = lots.byId(lot.id(), signedIn.locationIds());
      matches.add(match(lot, stock));
      if (lot.state() != LotState.FREE) {
        problems.add("Lot " + lot.number() + " is held back: no pack of it may leave.");
      }
      if (udi != null && udi.expiresOn() != null && !udi.expiresOn().equals(lot.expiresOn())) {
        problems.add(
            "The label says good to "
                + Days.full(udi.expiresOn())
                + ", the lot was received as good to "
                + Days.full(lot.expiresOn())
                + ". Ask a manager before it is used.");
      }
      if (expired(lot)) {
        problems.add("Lot " + lot.number() + " has expired: no pack of it may leave.");
      }
      actions.add(new Action("pads", "Look at pads " + lot.code(), Addresses.pads(lot.code())));
    }
    if (!signedIn.has(Roles.THERAPIST)) {
      actions.add(new Action("receive", "Receive delivery", Addresses.receive(null)));
    }
    return new ScanAnswer(ScanKind.UDI, UdiFields.of(udi), matches, actions, problems, null);
  }

  private boolean expired(LotFactsView lot) {
    Long here = signedIn.locationId();
    return here != null && lot.expiresOn().isBefore(locations.today(here));
  }

  private static Match match(LotFactsView lot, LotStock stock) {
    StringBuilder words = new StringBuilder("good to ").append(Days.full(lot.expiresOn()));
    stock
        .heldAt()
        .forEach(
            held ->
                words
                    .append("; ")
                    .append(held.packs())
                    .append(held.packs() == 1 ? " pack at " : " packs at ")
                    .append(held.location()));
    if (stock.heldAt().isEmpty()) {
      words.append("; none in the cupboard");
    }
    return new Match(
        "pad-lot",
        String.valueOf(lot.id()),
        "pads " + lot.code() + ", lot " + lot.number(),
        null,
        words.toString(),
        null,
        Addresses.lot(lot.id()));
  }

  /** A typed order, such as “order 12”. */
  Optional<ScanAnswer> order(String text) {
    Matcher matcher = ORDER.matcher(text);
    if (!matcher.matches()) {
      return Optional.empty();
    }
    Long id = Long.valueOf(matcher.group(1));
    try {
      if (!signedIn.mayActAt(supply.locationOf(id))) {
        return Optional.empty();
      }
    } catch (NotFound none) {
      return Optional.empty();
    }
    OrderView order = supply.byId(id);
    LocalDate expected = order.expectedOn();
    return Optional.of(
        new ScanAnswer(
            ScanKind.ORDER,
            null,
            List.of(
                new Match(
                    "order",
                    order.id(),
                    "order " + order.id(),
                    null,
                    (order.supplier() == null ? "" : order.supplier() + "; ")
                        + "ordered "
                        + Days.shortly(order.orderedOn())
                        + (expected == null ? "" : ", expected " + Days.shortly(expected)),
                    null,
                    Addresses.order(order.id()))),
            List.of(new Action("receive", "Receive delivery", Addresses.receive(order.id()))),
            List.of(),
            null));
  }
}
