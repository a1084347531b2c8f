package clinic.stimshelf.shelf;

import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.Set;

/**
 * A stimulator with its state. Every move is a method here; one that the state does not allow is
 * refused, naming the state and what to do.
 */
@Entity
@Table(name = "unit")
class Unit {
  /** Clocks of two machines differ, and a person reads a wall clock. */
  private static final Duration SLACK = Duration.ofMinutes(1);

  private static final String SWOLLEN =
      "Its battery is swollen, hot or leaking: don’t charge it, don’t switch it on.";

  private static final Set<UnitState> WITHIN_REACH =
      EnumSet.of(
          UnitState.READY,
          UnitState.RESERVED,
          UnitState.TO_WIPE,
          UnitState.TO_INSPECT,
          UnitState.OUT_OF_SERVICE);

  private static final Set<UnitState> IN_HAND =
      EnumSet.of(
          UnitState.READY, UnitState.TO_WIPE, UnitState.TO_INSPECT, UnitState.OUT_OF_SERVICE);

  @Id
  @SequenceGenerator(name = "unit_seq", sequenceName = "unit_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "unit_seq")
  Long id;

  @Version int version;
  String ref;
  String tag;

  @Column(name = "tag_key")
  String tagKey;

  String serial;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "kind_id")
  UnitKind kind;

  @Column(name = "location_id")
  Long locationId;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "spot_id")
  StorageSpot spot;

  @Enumerated(EnumType.STRING)
  Purpose purpose;

  /** As last written; what it is now says {@link #stateAt}. */
  @Enumerated(EnumType.STRING)
  UnitState state;

  @Column(name = "state_since")
  Instant stateSince;

  @Column(name = "state_reason")
  String stateReason;

  /** Somebody used it since it was last wiped. */
  @Column(name = "needs_wipe")
  boolean needsWipe;

  /** It was at a home, faulty or dropped since it was last inspected. */
  @Column(name = "needs_inspection")
  boolean needsInspection;

  /** End of the contact time of a wipe that does not count yet. */
  @Column(name = "wipe_counts_at")
  Instant wipeCountsAt;

  /** What it came back with beyond ordinary use, until a wipe counts. */
  String soiling;

  /** Before this it does not leave, however well it is wiped. */
  @Column(name = "held_until")
  Instant heldUntil;

  /** Its battery was seen swollen, and nobody who may has judged it yet. */
  @Column(name = "pack_swollen")
  boolean packSwollen;

  @Enumerated(EnumType.STRING)
  @Column(name = "reserved_kind")
  UseKind reservedKind;

  @Column(name = "reserved_id")
  Long reservedId;

  @Column(name = "next_test_on")
  LocalDate nextTestOn;

  @Column(name = "charging_since")
  Instant chargingSince;

  @Column(name = "charged_at")
  Instant chargedAt;

  @Column(name = "use_counter")
  Integer useCounter;

  @Column(name = "acquired_on")
  LocalDate acquiredOn;

  @Column(name = "retired_on")
  LocalDate retiredOn;

  @Column(name = "owner_words")
  String ownerWords;

  /** The state at a time: a wipe moves it on by itself once its contact time has passed. */
  UnitState stateAt(Instant now) {
    if (state == UnitState.TO_WIPE && wipeCounts(now)) {
      return afterWipe();
    }
    return state;
  }

  Instant stateSinceAt(Instant now) {
    return state == UnitState.TO_WIPE && wipeCounts(now) ? cleanFrom() : stateSince;
  }

  Set<Soiling> soilingAt(Instant now) {
    return wipeCounts(now) ? Set.of() : Soiling.parsed(soiling);
  }

  boolean holdsChargeAt(Instant now) {
    return kind.holdsCharge(chargedAt, now);
  }

  /** Writes down what the passing of time has changed. */
  void settle(Instant now) {
    if (!wipeCounts(now)) {
      return;
    }
    needsWipe = false;
    if (state == UnitState.TO_WIPE) {
      enter(afterWipe(), cleanFrom(), null);
    }
    wipeCountsAt = null;
    soiling = null;
    heldUntil = null;
  }

  /** What stands against the safety test on that day. */
  void checkTest(LocalDate today, Refusals refusals) {
    if (nextTestOn == null) {
      refusals.add(
          "safetyTest",
          "No safety test of unit "
              + tag
              + " is on record; a drop or a repair ends an earlier one.",
          "Have it tested and enter the test.");
    } else if (today.isAfter(nextTestOn)) {
      refusals.add(
          "safetyTest",
          "The safety test of unit " + tag + " was due on " + Days.full(nextTestOn) + ".",
          "Have it tested and enter the test.");
    }
  }

  void checkState(String wish, Set<UnitState> from, Instant at, Refusals refusals) {
    UnitState now = stateAt(at);
    if (!from.contains(now)) {
      refusals.add(
          "state",
          "Unit " + tag + " is " + now.words() + ", so it cannot be " + wish + ".",
          now == UnitState.TO_WIPE && wipeCountsAt != null ? stillWaiting(at) : now.next());
    }
  }

  void reserve(UseKind kind, Long forId, LocalDate today, Instant at) {
    Refusals refusals = new Refusals();
    checkState("reserved", EnumSet.of(UnitState.READY), at, refusals);
    checkTest(today, refusals);
    checkTime(at, refusals);
    refusals.throwIfAny();
    enter(UnitState.RESERVED, at, null);
    reservedKind = kind;
    reservedId = forId;
  }

  boolean isReservedFor(UseKind wantedKind, Long wantedId) {
    return state == UnitState.RESERVED
        && reservedKind != null
        && reservedKind == wantedKind
        && reservedId.equals(wantedId);
  }

  void release(Instant at) {
    only("released", EnumSet.of(UnitState.RESERVED), at);
    unreserve();
    enter(UnitState.READY, at, null);
  }

  /** Begins a use; the caller holds the row and has made sure that no other use runs. */
  void begin(UseKind useKind, Instant at) {
    only("given out", EnumSet.of(UnitState.READY, UnitState.RESERVED), at);
    unreserve();
    needsWipe = true;
    wipeCountsAt = null;
    chargingSince = null;
    if (useKind == UseKind.LOAN) {
      needsInspection = true;
      enter(UnitState.ON_LOAN, at, null);
    } else {
      enter(UnitState.IN_TREATMENT, at, null);
    }
  }

  /** The use is over. A unit that was taken out of service meanwhile stays so. */
  void end(UseKind useKind, UnitState next, Instant at) {
    if (next != UnitState.TO_WIPE
        && next != UnitState.OUT_OF_SERVICE
        && next != UnitState.MISSING) {
      throw new IllegalArgumentException("A use does not end in " + next.word());
    }
    only(
        "taken back",
        EnumSet.of(
            UnitState.IN_TREATMENT, UnitState.ON_LOAN, UnitState.MISSING, UnitState.OUT_OF_SERVICE),
        at);
    UnitState then = packSwollen && next == UnitState.TO_WIPE ? UnitState.OUT_OF_SERVICE : next;
    needsWipe = true;
    if (useKind == UseKind.LOAN || then != UnitState.TO_WIPE) {
      needsInspection = true;
    }
    if (useKind == UseKind.LOAN) {
      chargedAt = null;
    }
    if (state != UnitState.OUT_OF_SERVICE || next == UnitState.MISSING) {
      enter(then, at, packSwollen ? SWOLLEN : null);
    }
  }

  /** The use was entered by mistake: nobody had the unit. */
  void cancelUse(Instant at) {
    only("put back", EnumSet.of(UnitState.IN_TREATMENT, UnitState.ON_LOAN, UnitState.MISSING), at);
    needsWipe = soiling != null;
    needsInspection = packSwollen;
    if (packSwollen) {
      enter(UnitState.OUT_OF_SERVICE, at, SWOLLEN);
    } else {
      enter(needsWipe ? UnitState.TO_WIPE : UnitState.READY, at, null);
    }
  }

  /** The end of the use was entered by mistake: it still runs. */
  void resumeUse(UseKind useKind, Instant at) {
    only("given back to its use", IN_HAND, at);
    wipeCountsAt = null;
    needsWipe = true;
    needsInspection = needsInspection || useKind == UseKind.LOAN;
    enter(useKind == UseKind.LOAN ? UnitState.ON_LOAN : UnitState.IN_TREATMENT, at, null);
  }

  void wiped(Instant at, Instant countsAt) {
    only(
        "wiped", EnumSet.of(UnitState.TO_WIPE, UnitState.TO_INSPECT, UnitState.OUT_OF_SERVICE), at);
    needsWipe = true;
    wipeCountsAt = countsAt;
    settle(at);
  }

  /**
   * It needs more than an ordinary wipe, and perhaps a time by itself. An earlier wipe counts no
   * more; with somebody, it stays there and is dealt with when it is back.
   */
  void soiled(Set<Soiling> more, Instant hold, Instant at) {
    only("entered so", EnumSet.complementOf(EnumSet.of(UnitState.RETIRED)), at);
    Set<Soiling> all = Soiling.parsed(soiling);
    all.addAll(more);
    soiling = Soiling.joined(all);
    if (hold != null && (heldUntil == null || hold.isAfter(heldUntil))) {
      heldUntil = hold;
    }
    needsWipe = true;
    wipeCountsAt = null;
    if (state == UnitState.READY || state == UnitState.RESERVED || state == UnitState.TO_INSPECT) {
      unreserve();
      enter(UnitState.TO_WIPE, at, null);
    }
  }

  /** It was entered as soiled by mistake; it is still to be wiped. */
  void notSoiled() {
    soiling = null;
    heldUntil = null;
  }

  /** A passed inspection leads to the shelf, past a wipe where that is still to be done. */
  void inspected(boolean passed, String why, Instant at) {
    only("inspected", EnumSet.of(UnitState.TO_INSPECT), at);
    if (passed) {
      refuseIfSwollen();
    }
    if (!passed) {
      needsInspection = true;
      enter(UnitState.OUT_OF_SERVICE, at, why);
    } else {
      needsInspection = false;
      enter(needsWipe ? UnitState.TO_WIPE : UnitState.READY, at, null);
    }
  }

  /** Not fit yet, and not so bad that it leaves the bench. */
  void staysToInspect(String why, Instant at) {
    only("inspected", EnumSet.of(UnitState.TO_INSPECT), at);
    stateReason = why;
  }

  void testFailed(String why, Instant at) {
    if (state == UnitState.OUT_OF_SERVICE) {
      moreTrouble(why, true);
    } else {
      outOfService(why, true, at);
    }
  }

  /** More is known against a unit that is out of service already. */
  void moreTrouble(String why, boolean endsTest) {
    stateReason = why;
    needsInspection = true;
    if (endsTest) {
      nextTestOn = null;
    }
  }

  /**
   * Off the shelf, from any state.
   *
   * @param endsTest whether the safety test no longer counts, as after a drop or a repair
   */
  void outOfService(String why, boolean endsTest, Instant at) {
    only("taken out of service", EnumSet.complementOf(EnumSet.of(UnitState.OUT_OF_SERVICE)), at);
    unreserve();
    needsInspection = true;
    retiredOn = null;
    if (endsTest) {
      nextTestOn = null;
    }
    enter(UnitState.OUT_OF_SERVICE, at, why);
  }

  /** Trouble that was told while somebody has the unit: it is inspected when it is back. */
  void troubleInUse(boolean endsTest) {
    needsInspection = true;
    if (endsTest) {
      nextTestOn = null;
    }
  }

  boolean inUse() {
    return state == UnitState.ON_LOAN
        || state == UnitState.IN_TREATMENT
        || state == UnitState.MISSING;
  }

  void charging(Instant at) {
    checkCharge();
    only("put on the charger", WITHIN_REACH, at);
    chargingSince = at;
  }

  void charged(Instant at) {
    checkCharge();
    only("entered as charged", WITHIN_REACH, at);
    chargingSince = null;
    if (chargedAt == null || at.isAfter(chargedAt)) {
      chargedAt = at;
    }
  }

  /** The battery is swollen: wherever the unit is, it does not serve until that is judged. */
  void packSwollen() {
    packSwollen = true;
    chargingSince = null;
    chargedAt = null;
  }

  private void refuseIfSwollen() {
    if (packSwollen) {
      throw new Refusal(
          "packSwollen",
          "The battery of unit " + tag + " is entered as swollen, hot or leaking.",
          "A licensed PT or a manager judges it first, with the reason, on the unit’s page.");
    }
  }

  /** Somebody who may has judged the battery: the unit is inspected next. */
  void packJudged(Instant at) {
    if (!packSwollen) {
      throw new Refusal("packSwollen", "No swollen battery is entered for unit " + tag + ".");
    }
    packSwollen = false;
    toInspection(at);
  }

  private void checkCharge() {
    refuseIfSwollen();
    if (kind.chargeDays == null) {
      throw new Refusal("charge", "Units of the kind " + kind.code + " are not charged.");
    }
  }

  void toInspection(Instant at) {
    only("sent to inspection", EnumSet.of(UnitState.OUT_OF_SERVICE), at);
    refuseIfSwollen();
    needsInspection = true;
    enter(UnitState.TO_INSPECT, at, null);
  }

  void missing(String why, Instant at) {
    if (WITHIN_REACH.contains(state)) {
      throw new Refusal(
          "state",
          "Unit " + tag + " is " + state.words() + "; only one on loan is entered as missing.",
          "Take it out of service and say that it cannot be found.");
    }
    only("entered as missing", EnumSet.of(UnitState.ON_LOAN), at);
    enter(UnitState.MISSING, at, why);
  }

  void found(Instant at) {
    only("entered as found", EnumSet.of(UnitState.MISSING), at);
    needsWipe = true;
    needsInspection = true;
    chargedAt = null;
    enter(
        packSwollen ? UnitState.OUT_OF_SERVICE : UnitState.TO_WIPE,
        at,
        packSwollen ? SWOLLEN : null);
  }

  /** Two patients held each other's units: whoever has it now is known again. */
  void turnedUpInUse(Instant at) {
    if (state == UnitState.MISSING) {
      enter(UnitState.ON_LOAN, at, null);
    }
  }

  void retire(String why, LocalDate day, Instant at) {
    only(
        "retired",
        EnumSet.complementOf(
            EnumSet.of(UnitState.ON_LOAN, UnitState.IN_TREATMENT, UnitState.RETIRED)),
        at);
    unreserve();
    retiredOn = day;
    enter(UnitState.RETIRED, at, why);
  }

  void move(Long toLocation, StorageSpot toSpot, Instant at) {
    if (!toLocation.equals(locationId)) {
      only("moved to another location", IN_HAND, at);
    }
    locationId = toLocation;
    spot = toSpot;
  }

  /** As a file says it stands. */
  void comesIn(UnitState entered, Instant at) {
    state = entered;
    stateSince = at;
    needsWipe = entered == UnitState.TO_WIPE || entered == UnitState.MISSING;
    needsInspection = entered != UnitState.READY && entered != UnitState.TO_WIPE;
  }

  /** As a file says, somebody has it. */
  void isOut(UseKind useKind, boolean gone, Instant since) {
    state =
        useKind == UseKind.TREATMENT
            ? UnitState.IN_TREATMENT
            : gone ? UnitState.MISSING : UnitState.ON_LOAN;
    stateSince = since;
    unreserve();
    needsWipe = true;
    needsInspection = needsInspection || useKind == UseKind.LOAN;
  }

  private void only(String wish, Set<UnitState> from, Instant at) {
    Refusals refusals = new Refusals();
    checkState(wish, from, at, refusals);
    checkTime(at, refusals);
    refusals.throwIfAny();
  }

  /** An event entered late must not lie before what brought the unit where it is. */
  private void checkTime(Instant at, Refusals refusals) {
    if (at.plus(SLACK).isBefore(stateSince)) {
      refusals.add(
          "happenedAt",
          "Unit " + tag + " has been " + state.words() + " only since a later time.",
          "Enter a time after that.");
    }
  }

  private void enter(UnitState next, Instant at, String why) {
    state = next;
    stateSince = at.isBefore(stateSince) ? stateSince : at;
    stateReason = why;
  }

  private UnitState afterWipe() {
    return needsInspection ? UnitState.TO_INSPECT : UnitState.READY;
  }

  private boolean wipeCounts(Instant now) {
    return wipeCountsAt != null && !now.isBefore(cleanFrom());
  }

  /** When the wipe counts: after its contact time and after the hold. */
  Instant cleanFrom() {
    return heldUntil != null && heldUntil.isAfter(wipeCountsAt) ? heldUntil : wipeCountsAt;
  }

  private String stillWaiting(Instant at) {
    return at.isBefore(wipeCountsAt)
        ? "It is wiped: wait until the contact time has passed."
        : "It is wiped and still held: wait until the hold has passed.";
  }

  private void unreserve() {
    reservedKind = null;
    reservedId = null;
  }
}
