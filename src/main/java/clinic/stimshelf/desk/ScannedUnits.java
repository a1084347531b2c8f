package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.desk.ScanAnswer.Action;
import clinic.stimshelf.desk.ScanAnswer.Match;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.loans.Requests;
import clinic.stimshelf.loans.Waiting;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.shelf.Kits;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What can be done with a unit whose tag, part or serial number was scanned. */
@ApplicationScoped
class ScannedUnits {
  private static final int REQUESTS_SHOWN = 8;

  @Inject Shelf shelf;
  @Inject Kits kits;
  @Inject Loans loans;
  @Inject Requests requests;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** The unit that bears the tag, or whose kit has a part with it. */
  Optional<UnitView> find(String tag) {
    return unit(tag)
        .or(() -> kits.unitOfPart(tag).map(shelf::byId))
        .filter(unit -> signedIn.mayActAt(unit.locationId()));
  }

  private Optional<UnitView> unit(String tag) {
    try {
      return Optional.of(shelf.byTag(tag));
    } catch (NotFound none) {
      return Optional.empty();
    }
  }

  /** The unit with the maker's serial number, if only one has it. */
  Optional<UnitView> findBySerial(String serial) {
    List<UnitView> units =
        shelf.bySerial(serial).stream()
            .filter(unit -> signedIn.mayActAt(unit.locationId()))
            .toList();
    return units.size() == 1 ? Optional.of(units.get(0)) : Optional.empty();
  }

  ScanAnswer answer(UnitView unit, String scanned) {
    List<Action> actions = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    String straightTo = null;
    String tag = unit.tag();
    switch (unit.state()) {
      case READY -> {
        offerRequests(unit, actions);
        actions.add(new Action("wipe", "Wipe unit", Addresses.wipe(tag)));
      }
      case RESERVED -> {
        if (unit.reservedFor() == UseKind.LOAN) {
          requests.waitingAt(unit.locationId()).stream()
              .filter(waiting -> waiting.id().equals(unit.reservedId()))
              .forEach(waiting -> actions.add(checkOut(waiting, tag)));
        }
      }
      case ON_LOAN, MISSING -> {
        LoanView loan = loans.openOf(unit.id()).orElse(null);
        if (loan != null) {
          straightTo = Addresses.checkIn(loan.id());
          actions.add(new Action("check-in", "Check in unit", straightTo));
          actions.add(new Action("loan", "Extend or swap", Addresses.loan(loan.id())));
          actions.add(new Action("call", "Call and log", Addresses.call(loan.id())));
        }
      }
      case TO_WIPE -> {
        straightTo = unit.readyAt() == null ? Addresses.wipe(tag) : null;
        actions.add(new Action("wipe", "Wipe unit", Addresses.wipe(tag)));
      }
      case TO_INSPECT -> {
        if (signedIn.has(Roles.FRONT_DESK)) {
          problems.add("A therapist or manager inspects it.");
        } else {
          actions.add(new Action("inspect", "Inspect unit", Addresses.inspection(tag)));
        }
      }
      case OUT_OF_SERVICE -> {
        // Held while a patient has it: whoever brings it is let off it first.
        if (unit.use() != null && unit.use().kind() == UseKind.LOAN) {
          loans
              .openOf(unit.id())
              .ifPresent(
                  loan ->
                      actions.add(
                          new Action("check-in", "Check in unit", Addresses.checkIn(loan.id()))));
        }
        problems.add(
            "Nobody may take it: "
                + (unit.stateReason() == null ? "out of service" : unit.stateReason())
                + ".");
      }
      case RETIRED -> problems.add("It is retired. Take another unit.");
      case IN_TREATMENT -> problems.add("It is in a treatment. End the treatment first.");
    }
    actions.add(new Action("unit", "Look at the unit", Addresses.unit(tag)));
    return new ScanAnswer(
        ScanKind.UNIT, null, List.of(match(unit, scanned)), actions, problems, straightTo);
  }

  private void offerRequests(UnitView unit, List<Action> actions) {
    requests.waitingAt(unit.locationId()).stream()
        .filter(waiting -> waiting.unitId() == null && waiting.channels() <= unit.channels())
        .limit(REQUESTS_SHOWN)
        .forEach(waiting -> actions.add(checkOut(waiting, unit.tag())));
  }

  private static Action checkOut(Waiting waiting, String tag) {
    return new Action(
        "check-out",
        "Check out unit to chart " + waiting.chartNumber(),
        Addresses.checkOut(waiting.programId(), tag));
  }

  private Match match(UnitView unit, String scanned) {
    StringBuilder words = new StringBuilder(unit.kindName());
    words.append(", ").append(unit.channels()).append(" channels");
    unit.contents().stream()
        .filter(part -> scanned.equalsIgnoreCase(part.tag()))
        .findFirst()
        .ifPresent(part -> words.append("; the tag is its ").append(part.name()).append("’s"));
    if (unit.spot() != null) {
      words.append("; ").append(unit.spot());
    }
    if (unit.state() == UnitState.ON_LOAN && unit.use() != null && unit.use().until() != null) {
      words
          .append("; due ")
          .append(
              Days.shortly(
                  LocalDate.ofInstant(unit.use().until(), locations.zone(unit.locationId()))));
    }
    if (unit.heldUntil() != null) {
      words
          .append("; held until ")
          .append(Days.words(unit.heldUntil().atZone(locations.zone(unit.locationId()))));
    } else if (unit.readyAt() != null) {
      long minutes = (Duration.between(clock.instant(), unit.readyAt()).toSeconds() + 59) / 60;
      words.append("; wiped, counts in ").append(minutes).append(" min");
    }
    if (unit.state() == UnitState.READY && !unit.charged()) {
      words.append("; to charge");
    }
    if (unit.testDue()) {
      words.append("; its safety test is due");
    }
    return new Match(
        "unit",
        unit.tag(),
        unit.tag(),
        null,
        words.toString(),
        unit.state().word(),
        Addresses.unit(unit.tag()));
  }
}
