package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Recalls: what is bad is held everywhere in the transaction that begins one, everybody who had it
 * is reached or left with a reason, and only then is it closed.
 */
@Retried
@ApplicationScoped
public class Recalls {
  private static final int REASON = 200;

  @Inject RecallRows rows;
  @Inject RecallReading reading;
  @Inject RecallAim aim;
  @Inject PadLots lots;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * Begins a recall and holds the lot, or the units, everywhere at once.
   *
   * @return its number
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public Long start(NewRecall wanted) {
    Refusals refusals = new Refusals();
    Recall row = new Recall();
    row.reason = Said.text("reason", "What is wrong", wanted.reason(), REASON, true, refusals);
    row.reference =
        Said.text("reference", "The reference", wanted.reference(), 120, false, refusals);
    aim.take(row, wanted, refusals);
    refusals.throwIfAny();
    row.state = RecallState.OPEN;
    row.begunAt = clock.instant();
    row.begunBy = signedIn.name();
    rows.persist(row);
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("about", reading.about(row));
    after.put("reason", row.reason);
    after.put("reference", row.reference);
    trail.record(subject(row), "begun", times.now(), null, after);
    holdAll(row);
    return row.id;
  }

  private void holdAll(Recall row) {
    Happened now = times.now();
    String why = "Recall " + row.id + ": " + row.reason;
    if (row.target == RecallTarget.LOT) {
      lots.quarantine(row.lotId, why, true, now);
      return;
    }
    // One order for everybody, so that two recalls that share units wait for one another.
    shelf.byIds(reading.unitIds(row)).values().stream()
        .sorted(Comparator.comparing(unit -> unit.id()))
        .forEach(
            unit -> {
              if (unit.stateReason() == null || !unit.stateReason().startsWith(why)) {
                care.hold(unit.tag(), why, now);
              }
            });
  }

  /** Holds again what is not held: units that were entered since, or a lot that was let go. */
  @Transactional
  public void holdAgain(Long id) {
    holdAll(openRow(id));
  }

  /** One recall in full. */
  @Transactional
  public RecallView byId(Long id) {
    return reading.view(row(id), zone());
  }

  /** Somebody whom the recall touched. */
  @Transactional
  public RecallPerson person(Long id, Long patientId) {
    signedIn.requireLocation(patients.byId(patientId).locationId());
    return reading.people(row(id), zone()).stream()
        .filter(one -> one.patientId().equals(String.valueOf(patientId)))
        .findFirst()
        .orElseThrow(() -> new NotFound("This person never had what is recalled."));
  }

  /** Open ones first, then the newest; how far they are is reckoned for open ones only. */
  @Transactional
  public Page<RecallLine> list(Paging paging) {
    ZoneId zone = zone();
    List<RecallLine> items =
        rows
            .find("order by case when state = ?1 then 0 else 1 end, begunAt desc", RecallState.OPEN)
            .page(paging.page(), paging.size())
            .stream()
            .map(row -> line(row, zone))
            .toList();
    return new Page<>(items, paging.page(), paging.size(), rows.count());
  }

  /** Recalls that are open. */
  @Transactional
  public List<RecallLine> open() {
    ZoneId zone = zone();
    return rows.list("state = ?1 order by begunAt", RecallState.OPEN).stream()
        .map(row -> line(row, zone))
        .toList();
  }

  private RecallLine line(Recall row, ZoneId zone) {
    return new RecallLine(
        String.valueOf(row.id),
        row.target,
        reading.about(row),
        row.reason,
        row.reference,
        row.begunAt,
        row.state,
        row.closedAt,
        row.open() ? RecallReading.progress(reading.people(row, zone)) : null);
  }

  /** The drawers were looked through for packs of the lot. */
  @Transactional
  public void drawersChecked(Long id, String words) {
    Recall row = openRow(id);
    Refusals refusals = new Refusals();
    if (row.target != RecallTarget.LOT) {
      refusals.add("words", "This recall is about units; drawers hold pads.");
    }
    String found = Said.text("words", "What was found", words, 300, true, refusals);
    refusals.throwIfAny();
    row.drawersDoneAt = clock.instant();
    row.drawersDoneBy = signedIn.name();
    row.drawersWords = found;
    trail.record(subject(row), "drawers looked through", times.now(), null, Map.of("found", found));
  }

  /**
   * Closes it. What is held stays held until it is let go on its own page.
   *
   * @throws Refusal with everybody who was neither reached nor left with a reason, and all else
   */
  @Transactional
  public void close(Long id, String words) {
    Recall row = openRow(id);
    Refusals refusals = new Refusals();
    String what = Said.text("words", "What became of it", words, 500, true, refusals);
    refusals.addAll(reading.against(row, zone()));
    refusals.throwIfAny();
    row.state = RecallState.CLOSED;
    row.closedAt = clock.instant();
    row.closedBy = signedIn.name();
    row.closedWords = what;
    trail.record(subject(row), "closed", times.now(), null, Map.of("words", what));
  }

  /** Opens it again, for instance because a late entry shows one more person. */
  @Transactional
  public void reopen(Long id, String words) {
    Recall row = locked(id);
    Refusals refusals = new Refusals();
    if (row.open()) {
      refusals.add("state", "This recall is open.");
    }
    String why = Said.text("words", "Why it is opened again", words, 500, true, refusals);
    refusals.throwIfAny();
    row.state = RecallState.OPEN;
    trail.record(
        subject(row),
        "opened again",
        times.now(),
        Map.of("closedWords", row.closedWords),
        Map.of("words", why));
    row.closedAt = null;
    row.closedBy = null;
    row.closedWords = null;
    holdAll(row);
  }

  private Recall openRow(Long id) {
    Recall row = locked(id);
    if (!row.open()) {
      throw new Refusal("state", "This recall is closed.", "Open it again first.");
    }
    return row;
  }

  private Recall locked(Long id) {
    Recall row = rows.findById(id, LockModeType.PESSIMISTIC_WRITE);
    if (row == null) {
      throw new NotFound("There is no such recall.");
    }
    return row;
  }

  Recall row(Long id) {
    Recall row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such recall.");
    }
    return row;
  }

  /** Days are those of the location whose matters the pages show. */
  ZoneId zone() {
    return locations.zone(signedIn.locationOr(null));
  }

  static Subject subject(Recall row) {
    return Subject.of("recall", row.id);
  }
}
