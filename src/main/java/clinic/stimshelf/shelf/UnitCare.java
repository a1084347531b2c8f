package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** What is done to a unit between two uses: wiped, inspected, charged, tested, taken off. */
@Retried
@ApplicationScoped
public class UnitCare {
  @Inject Units units;
  @Inject UnitUses uses;
  @Inject UnitChanges changes;
  @Inject Wipes wipes;
  @Inject Inspections inspections;
  @Inject InspectionAnswers answers;
  @Inject SafetyTests tests;
  @Inject Charges charges;
  @Inject UnitFaults faults;
  @Inject WipeProducts products;
  @Inject SoilingRules soilingRules;
  @Inject Checklist checklist;
  @Inject Locations locations;
  @Inject Actor actor;
  @Inject SignedIn signedIn;
  @Inject @Any Instance<UnitKept> keepers;
  @Inject Event<UnitWrittenOff> writtenOff;

  /**
   * Why a unit is taken out of service. After a drop or a repair its safety test counts no more.
   */
  public enum Cause {
    FAULT,
    DROP,
    REPAIR,
    SWOLLEN,
    OTHER;

    boolean endsTest() {
      return this == DROP || this == REPAIR;
    }

    static Cause byWord(String word) {
      for (Cause cause : values()) {
        if (cause.name().equalsIgnoreCase(word)) {
          return cause;
        }
      }
      return null;
    }
  }

  /**
   * A safety test.
   *
   * @param nextDueOn {@code null} for the location's interval after the day of the test
   * @param tester who tested
   * @param certificate number of the protocol, or {@code null}
   */
  public record NewTest(
      LocalDate testedOn,
      boolean passed,
      LocalDate nextDueOn,
      String tester,
      String certificate,
      String note) {}

  /**
   * The unit was wiped; it counts once the product's contact time has passed.
   *
   * @param product key of the product, or {@code null} for the one proposed
   */
  @Transactional
  public void wiped(String tag, String product, String note, Happened happened) {
    Long id = units.idOf(tag);
    Unit asItIs = units.byId(id);
    Set<Soiling> soiling = asItIs.soilingAt(happened.at());
    List<WipeProducts.Product> allowed = soilingRules.allowed(soiling);
    WipeProducts.Product with =
        product == null || product.isBlank()
            ? allowed.get(0)
            : products
                .find(product)
                .orElseThrow(
                    () ->
                        new Refusal(
                            "product",
                            "There is no product “" + product + "”.",
                            "Choose one of: " + products.keys() + "."));
    if (!allowed.contains(with)) {
      throw new Refusal(
          "product",
          "Unit "
              + asItIs.tag
              + " needs another product: "
              + soiling.stream().map(Soiling::words).collect(Collectors.joining(", "))
              + ".",
          "Wipe it with "
              + allowed.stream().map(WipeProducts.Product::name).collect(Collectors.joining(" or "))
              + ".");
    }
    String words = optional("note", note, 500);
    changes.change(
        id,
        "wiped",
        happened,
        unit -> {
          Wipe wipe = new Wipe();
          wipe.unitId = unit.id;
          wipe.product = with.key();
          wipe.contactMinutes = with.contactMinutes();
          wipe.wipedAt = happened.at();
          wipe.countsAt = happened.at().plus(Duration.ofMinutes(with.contactMinutes()));
          wipe.doneBy = actor.name();
          wipe.note = words;
          unit.wiped(wipe.wipedAt, wipe.countsAt);
          wipes.persist(wipe);
        });
  }

  /**
   * The unit has more on it than ordinary use leaves: another product counts, and the kit is held
   * for the location's own days from that time. Each of several stays; the longest hold counts.
   *
   * @throws Refusal if none is named, or the unit is retired
   */
  @Transactional
  public void soiled(String tag, Set<Soiling> soiling, Happened happened) {
    if (soiling == null || soiling.isEmpty()) {
      throw new Refusal("soiling", "Say what is on the unit.", "Choose at least one.");
    }
    Long id = units.idOf(tag);
    Long locationId = units.byId(id).locationId;
    LocationSettings settings = locations.settings(locationId);
    int days = soiling.stream().mapToInt(one -> settings.whole(one.holdDays())).max().orElse(0);
    Instant hold =
        days == 0
            ? null
            : happened.at().atZone(locations.zone(locationId)).plusDays(days).toInstant();
    changes.change(id, "soiled", happened, unit -> unit.soiled(soiling, hold, happened.at()));
  }

  /** It was entered as soiled by mistake: the ordinary wipe is enough and the hold ends. */
  @Transactional
  public void notSoiled(String tag, String reason, Happened happened) {
    String why = needed("reason", reason, "Say why it is not so after all.");
    changes.change(
        units.idOf(tag),
        "not soiled: " + why,
        happened,
        unit -> {
          if (unit.soiling == null) {
            throw new Refusal(
                "soiling", "Nothing of the kind is entered for unit " + unit.tag + ".");
          }
          unit.notSoiled();
        });
  }

  /**
   * The unit was inspected.
   *
   * @param found for each point of the checklist whether it is fine
   * @param staysToInspect where a point is not fine: stay to inspect instead of out of service
   * @return whether it passed
   */
  @Transactional
  public boolean inspected(
      String tag,
      Map<String, Boolean> found,
      String note,
      boolean staysToInspect,
      Happened happened) {
    Refusals refusals = new Refusals();
    for (Checklist.Item item : checklist.items()) {
      if (found.get(item.key()) == null) {
        refusals.add(item.field(), "Not answered: " + item.question());
      }
    }
    found.keySet().stream()
        .filter(key -> checklist.items().stream().noneMatch(item -> item.key().equals(key)))
        .forEach(
            key -> refusals.add("answers." + key, "The checklist has no point “" + key + "”."));
    String words = optional("note", note, 500);
    refusals.throwIfAny();
    List<Checklist.Item> bad =
        checklist.items().stream().filter(item -> !found.get(item.key())).toList();
    boolean passed = bad.isEmpty();
    String why =
        cut(
            "Inspection, no: "
                + bad.stream().map(Checklist.Item::question).collect(Collectors.joining(" "))
                + (words == null ? "" : " " + words));
    changes.change(
        units.idOf(tag),
        passed ? "inspected" : "inspection failed",
        happened,
        unit -> {
          if (passed) {
            refuseIfKept(unit);
          }
          if (passed || !staysToInspect) {
            unit.inspected(passed, why, happened.at());
          } else {
            unit.staysToInspect(why, happened.at());
          }
          keep(unit, passed, words, found, happened);
          if (!passed) {
            fault(unit.id, FaultKind.FAILED_INSPECTION, why, happened);
          }
        });
    return passed;
  }

  /** The unit was put on the charger. */
  @Transactional
  public void charging(String tag, Happened happened) {
    changes.change(
        units.idOf(tag),
        "charging",
        happened,
        unit -> {
          unit.charging(happened.at());
          Charge charge = new Charge();
          charge.unitId = unit.id;
          charge.begunAt = happened.at();
          charge.doneBy = actor.name();
          charges.persist(charge);
        });
  }

  /** The unit is charged, or has fresh cells. */
  @Transactional
  public void charged(String tag, Happened happened) {
    changes.change(
        units.idOf(tag),
        "charged",
        happened,
        unit -> {
          Charge charge =
              charges
                  .find("unitId = ?1 and chargedAt is null order by begunAt desc", unit.id)
                  .firstResultOptional()
                  .filter(begun -> unit.chargingSince != null)
                  .orElseGet(Charge::new);
          unit.charged(happened.at());
          charge.unitId = unit.id;
          charge.chargedAt = happened.at();
          charge.doneBy = actor.name();
          charges.persist(charge);
        });
  }

  /**
   * The unit had its electrical test. One that failed takes it out of service.
   *
   * @return the day on which the next one is due
   */
  @Transactional
  public LocalDate tested(String tag, NewTest test, Happened happened) {
    Long id = units.idOf(tag);
    Long locationId = units.byId(id).locationId;
    LocalDate today = locations.today(locationId);
    int months = locations.settings(locationId).whole(Setting.TEST_INTERVAL_MONTHS);
    Refusals refusals = new Refusals();
    if (test.testedOn() == null) {
      refusals.add("testedOn", "The day of the test is missing.");
    } else if (test.testedOn().isAfter(today)) {
      refusals.add("testedOn", "The test lies in the future.", "Enter the day it was done.");
    } else if (test.nextDueOn() != null
        && (!test.nextDueOn().isAfter(test.testedOn())
            || test.nextDueOn().isAfter(test.testedOn().plusMonths(36)))) {
      refusals.add(
          "nextDueOn",
          "The next test must be due after "
              + Days.full(test.testedOn())
              + " and within 36 months of it.");
    }
    String tester = test.tester() == null || test.tester().isBlank() ? actor.name() : test.tester();
    checkLength("tester", tester, 200, refusals);
    checkLength("certificate", test.certificate(), 120, refusals);
    checkLength("note", test.note(), 500, refusals);
    refusals.throwIfAny();
    LocalDate next =
        test.nextDueOn() == null ? test.testedOn().plusMonths(months) : test.nextDueOn();
    changes.change(
        id,
        test.passed() ? "tested" : "test failed",
        happened,
        unit -> {
          SafetyTest row = new SafetyTest();
          row.unitId = id;
          row.testedOn = test.testedOn();
          row.passed = test.passed();
          row.nextDueOn = test.passed() ? next : null;
          row.tester = tester.strip();
          row.certificate = optional("certificate", test.certificate(), 120);
          row.note = optional("note", test.note(), 500);
          tests.persist(row);
          if (test.passed()) {
            if (tests.count("unitId = ?1 and testedOn > ?2", id, test.testedOn()) == 0) {
              unit.nextTestOn = next;
            }
          } else {
            String why = "Failed its safety test on " + Days.full(test.testedOn()) + ".";
            unit.testFailed(why, happened.at());
            fault(id, FaultKind.FAILED_TEST, why, happened);
          }
        });
    return next;
  }

  /**
   * Trouble with a unit. On the shelf it goes out of service; while somebody has it, it stays there
   * and is inspected when it is back.
   */
  @Transactional
  public void trouble(String tag, FaultKind kind, String words, Happened happened) {
    String why = needed("words", words, "Say what is wrong with the unit.");
    changes.change(
        units.idOf(tag),
        kind == FaultKind.DROP ? "dropped" : "trouble",
        happened,
        unit -> {
          fault(unit.id, kind, why, happened);
          if (kind == FaultKind.SWOLLEN) {
            unit.packSwollen();
          }
          if (unit.inUse()) {
            unit.troubleInUse(kind == FaultKind.DROP);
          } else if (unit.state == UnitState.OUT_OF_SERVICE) {
            unit.moreTrouble(cut(unit.stateReason + " " + why), kind == FaultKind.DROP);
          } else {
            unit.outOfService(why, kind == FaultKind.DROP, happened.at());
          }
        });
  }

  /** Off the shelf, from any state. */
  @Transactional
  public void outOfService(String tag, Cause cause, String reason, Happened happened) {
    String why = needed("reason", reason, "Say why the unit is taken out of service.");
    changes.change(
        units.idOf(tag),
        cause == Cause.REPAIR ? "sent to repair" : "out of service",
        happened,
        unit -> {
          if (cause == Cause.SWOLLEN) {
            unit.packSwollen();
            fault(unit.id, FaultKind.SWOLLEN, why, happened);
          }
          if (unit.state == UnitState.OUT_OF_SERVICE
              && (cause == Cause.REPAIR || cause == Cause.SWOLLEN)) {
            unit.moreTrouble(why, cause.endsTest());
          } else {
            unit.outOfService(why, cause.endsTest(), happened.at());
          }
          if (cause == Cause.FAULT || cause == Cause.DROP) {
            fault(unit.id, cause == Cause.FAULT ? FaultKind.FAULT : FaultKind.DROP, why, happened);
          }
        });
  }

  /**
   * Off the shelf at once for a recall or an incident, with whoever has it too; the use goes on
   * until the unit is back. On a unit that is off the shelf already the reason is put before the
   * earlier one. Missing and retired units are left as they are.
   *
   * @return whether it is held now
   */
  @Transactional
  public boolean hold(String tag, String reason, Happened happened) {
    String why = needed("reason", reason, "Say why the unit is held.");
    boolean[] held = {true};
    changes.change(
        units.idOf(tag),
        "held back",
        happened,
        unit -> {
          if (unit.state == UnitState.MISSING || unit.state == UnitState.RETIRED) {
            held[0] = false;
          } else if (unit.state == UnitState.OUT_OF_SERVICE) {
            unit.moreTrouble(
                cut(unit.stateReason == null ? why : why + " Before: " + unit.stateReason), false);
          } else {
            unit.outOfService(why, false, happened.at());
          }
        });
    return held[0];
  }

  private void refuseIfKept(Unit unit) {
    Refusals refusals = new Refusals();
    for (UnitKept keeper : keepers) {
      keeper
          .why(unit.id, unit.serial, unit.kind.id)
          .ifPresent(why -> refusals.add("state", why, "Close that first."));
    }
    refusals.throwIfAny();
  }

  /** The reason is dealt with: it is inspected before it serves again. */
  @Transactional
  public void toInspection(String tag, Happened happened) {
    changes.change(
        units.idOf(tag),
        "to inspection",
        happened,
        unit -> {
          if (uses.running(unit.id).isPresent()) {
            throw new Refusal(
                "state",
                "Unit " + unit.tag + " is still with whoever has it.",
                "Check it in first.");
          }
          refuseIfKept(unit);
          unit.toInspection(happened.at());
        });
  }

  /**
   * A swollen battery was judged: replaced, or found sound after all. The unit is inspected next.
   *
   * @throws Refusal unless a licensed PT or a manager says so with a reason
   */
  @Transactional
  public void packJudged(String tag, String reason, Happened happened) {
    Unit asItIs = units.byId(units.idOf(tag));
    Refusals refusals = new Refusals();
    if (!signedIn.has(Roles.MANAGER)
        && !signedIn.mayLicensedPt(locations.today(asItIs.locationId))) {
      refusals.add(
          "credential",
          "A swollen battery is judged by a licensed PT or a manager.",
          "Ask one of them; until then the unit stays out of service.");
    }
    if (uses.running(asItIs.id).isPresent()) {
      refusals.add(
          "state", "Unit " + asItIs.tag + " is still with whoever has it.", "Check it in first.");
    }
    if (reason == null || reason.isBlank()) {
      refusals.add("reason", "Say what was found and done: who replaced it, or why it is sound.");
    }
    checkLength("reason", reason, 480, refusals);
    refusals.throwIfAny();
    changes.change(
        asItIs.id,
        "battery judged: " + reason.strip(),
        happened,
        unit -> {
          refuseIfKept(unit);
          unit.packJudged(happened.at());
        });
  }

  /** A unit on loan cannot be had back for now; its loan goes on. */
  @Transactional
  public void missing(String tag, String reason, Happened happened) {
    String why = needed("reason", reason, "Say what is known: who was asked, and when.");
    changes.change(units.idOf(tag), "missing", happened, unit -> unit.missing(why, happened.at()));
  }

  /**
   * A missing unit turned up. Where a loan still runs, the check in ends it, so that the contents
   * are counted.
   *
   * @throws Refusal if somebody's use of it still runs
   */
  @Transactional
  public void found(String tag, Happened happened) {
    changes.change(
        units.idOf(tag),
        "found",
        happened,
        unit -> {
          if (uses.running(unit.id).isPresent()) {
            throw new Refusal(
                "state",
                "The loan of unit " + unit.tag + " is still open.",
                "Check the unit in: scan its tag. That ends the loan and counts the contents.");
          }
          unit.found(happened.at());
        });
  }

  /** Out of the fleet for good; its history stays. */
  @Transactional
  public void retire(String tag, String reason, Happened happened) {
    String why = needed("reason", reason, "Say why the unit is retired.");
    changes.change(
        units.idOf(tag),
        "retired",
        happened,
        unit -> {
          if (unit.state != UnitState.MISSING && uses.running(unit.id).isPresent()) {
            throw new Refusal(
                "state",
                "Unit " + unit.tag + " is still with whoever has it.",
                "Check it in, or end the treatment, first.");
          }
          LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(unit.locationId));
          unit.retire(why, day, happened.at());
          uses.running(unit.id)
              .ifPresent(
                  use -> {
                    use.end(happened.at());
                    uses.flush();
                    writtenOff.fire(
                        new UnitWrittenOff(unit.id, use.useKind, use.subjectId, why, happened));
                  });
        });
  }

  private void keep(
      Unit unit, boolean passed, String note, Map<String, Boolean> found, Happened happened) {
    Inspection inspection = new Inspection();
    inspection.unitId = unit.id;
    inspection.inspectedAt = happened.at();
    inspection.passed = passed;
    inspection.doneBy = actor.name();
    inspection.note = note;
    inspections.persist(inspection);
    for (Checklist.Item item : checklist.items()) {
      InspectionAnswer answer = new InspectionAnswer();
      answer.inspectionId = inspection.id;
      answer.item = item.key();
      answer.question = item.question();
      answer.fine = found.get(item.key());
      answers.persist(answer);
    }
  }

  private void fault(Long unitId, FaultKind kind, String words, Happened happened) {
    UnitFault fault = new UnitFault();
    fault.unitId = unitId;
    fault.faultKind = kind;
    fault.noticedAt = happened.at();
    fault.words = words;
    fault.toldBy = actor.name();
    faults.persist(fault);
  }

  private static String needed(String field, String text, String says) {
    if (text == null || text.isBlank()) {
      throw new Refusal(field, says);
    }
    return optional(field, text, 500);
  }

  private static String optional(String field, String text, int most) {
    Refusals refusals = new Refusals();
    checkLength(field, text, most, refusals);
    refusals.throwIfAny();
    return text == null || text.isBlank() ? null : text.strip();
  }

  private static void checkLength(String field, String text, int most, Refusals refusals) {
    if (text != null && text.strip().length() > most) {
      refusals.add(field, "This is too long: at most " + most + " characters.");
    }
  }

  private static String cut(String text) {
    return text.length() <= 500 ? text : text.substring(0, 499) + "…";
  }
}
