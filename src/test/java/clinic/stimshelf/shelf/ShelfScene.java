package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.NewLocation;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;

/** Puts up locations, kinds and units that no other test knows of. */
@ApplicationScoped
public class ShelfScene {
  private static final AtomicInteger COUNT = new AtomicInteger();

  @Inject Locations locations;
  @Inject ShelfKeeping keeping;
  @Inject UnitCare care;
  @Inject Shelf shelf;
  @Inject Checklist checklist;
  @Inject Units units;
  @Inject Clock clock;

  public static String unique(String start) {
    return start + "-" + COUNT.incrementAndGet();
  }

  /** Work of a thread of its own, as the program itself. */
  @ActivateRequestContext
  public <T> T call(Callable<T> work) throws Exception {
    return work.call();
  }

  /** Lets the unit have been where it is for longer, so that events can have happened since. */
  @Transactional
  public void since(String tag, Duration ago) {
    units.update("stateSince = ?1 where tag = ?2", clock.instant().minus(ago), tag);
  }

  @Transactional
  public void set(String tag, Consumer<Unit> change) {
    change.accept(units.byId(units.idOf(tag)));
  }

  public Long location() {
    Map<DayOfWeek, List<DayHours>> hours = new TreeMap<>();
    for (DayOfWeek day : DayOfWeek.values()) {
      hours.put(day, List.of(new DayHours(LocalTime.of(7, 0), LocalTime.of(19, 0))));
    }
    String code = unique("shelf");
    return locations.add(
        new NewLocation(
            code, "Place " + code, "America/New_York", null, null, null, null, hours, Map.of()));
  }

  public String kind(int channels) {
    String code = unique("kind");
    keeping.addKind(
        new KindView(
            null,
            code,
            "Kind " + code,
            channels,
            "pin-2mm",
            OutputScale.MILLIAMPERES,
            5,
            "lithium",
            new BigDecimal("240.00"),
            true,
            List.of(
                new KindView.PartLine(Part.LEAD_SET, "lead set", true),
                new KindView.PartLine(Part.CHARGER, "charger", true),
                new KindView.PartLine(Part.BAG, "bag", false))));
    return code;
  }

  /** A new unit, tested, still to be inspected. */
  public String newUnit(Long locationId, String kind) {
    return keeping.addUnit(
        new NewUnit(
            unique("T"),
            unique("S"),
            kind,
            locationId,
            null,
            "both",
            locations.today(locationId).plusMonths(6),
            null,
            null,
            null));
  }

  public UnitView readyUnit(Long locationId, String kind) {
    String tag = newUnit(locationId, kind);
    pass(tag, now());
    care.charged(tag, now());
    return shelf.byTag(tag);
  }

  public void pass(String tag, Happened happened) {
    care.inspected(tag, answers(true), null, false, happened);
  }

  public Map<String, Boolean> answers(boolean fine) {
    Map<String, Boolean> answers = new TreeMap<>();
    checklist.items().forEach(item -> answers.put(item.key(), fine));
    return answers;
  }

  public Happened now() {
    return Happened.at(clock.instant());
  }

  public Instant in(Duration time) {
    return clock.instant().plus(time);
  }
}
