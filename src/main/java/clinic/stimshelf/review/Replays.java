package clinic.stimshelf.review;

import clinic.stimshelf.calc.demand.Replay;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.OrderRule;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.web.NotFound;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Plays the ordering rule once more over the clinic's own past year, with what was known on each
 * day.
 */
@ApplicationScoped
public class Replays {
  private static final int YEAR = 365;

  /** Before that the rule would have had next to nothing to go by. */
  private static final int WARM_UP_DAYS = 56;

  private static final int LEAST_DAYS = 28;
  private static final int REMEMBERED = 40;

  @Inject ReplayRecords records;
  @Inject PadCatalog catalog;
  @Inject Locations locations;

  /** A location's replays hold for a day and a state of its ledger. */
  private record Key(
      Long locationId,
      LocalDate today,
      Object lastLine,
      OrderRule.Terms terms,
      double adherence,
      List<PadTypeView> types) {}

  /** A pad type walked through, but for the fixed level that is chosen on the page. */
  private record Walked(
      PadTypeView type,
      Period period,
      Replay.Past past,
      Replay.Course happened,
      Replay.Course rule,
      long level,
      long quantity,
      long realOrders,
      long realPacks) {}

  private final Map<Key, List<Walked>> remembered =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<Key, List<Walked>> eldest) {
              return size() > REMEMBERED;
            }
          });

  /** Every pad type in use of which packs were asked for; empty while there is too little past. */
  @Transactional
  public List<ReplayView> all(Long locationId) {
    return walked(locationId).stream()
        .map(walked -> view(walked, walked.level(), walked.quantity()))
        .toList();
  }

  /**
   * One pad type.
   *
   * @param level order at or below, for the fixed rule; {@code null} for the proposed one
   * @param quantity packs in one order; {@code null} for the proposed ones
   * @return empty while there is too little past
   * @throws NotFound if there is no such type
   */
  @Transactional
  public Optional<ReplayView> one(Long locationId, String padCode, Long level, Long quantity) {
    catalog.byCode(padCode);
    return walked(locationId).stream()
        .filter(walked -> walked.type().code().equals(padCode))
        .findFirst()
        .map(
            walked ->
                view(
                    walked,
                    level == null ? walked.level() : level,
                    quantity == null ? walked.quantity() : quantity));
  }

  private static ReplayView view(Walked walked, long level, long quantity) {
    return new ReplayView(
        walked.type().code(),
        walked.type().name(),
        walked.period(),
        walked.type().price() == null ? BigDecimal.ZERO : walked.type().price(),
        level,
        quantity,
        walked.level(),
        walked.quantity(),
        walked.happened(),
        walked.rule(),
        Replay.walk(
            walked.past(),
            morning ->
                // As many orders as it takes to stand above the level again.
                morning.position() <= level
                    ? quantity * ((level - morning.position()) / quantity + 1)
                    : 0),
        walked.realOrders(),
        walked.realPacks());
  }

  private List<Walked> walked(Long locationId) {
    LocalDate today = locations.today(locationId);
    LocationSettings settings = locations.settings(locationId);
    Object[] state = records.state(locationId);
    Key key =
        new Key(
            locationId,
            today,
            state[1],
            new OrderRule.Terms(
                Math.max(1, settings.whole(Setting.REVIEW_DAYS)),
                settings.number(Setting.SERVICE_LEVEL),
                settings.number(Setting.EXPIRY_CERTAINTY)),
            settings.number(Setting.ADHERENCE_WITHOUT_HISTORY),
            catalog.active());
    List<Walked> known = remembered.get(key);
    if (known == null) {
      known = walk(key, (Instant) state[0]);
      remembered.put(key, known);
    }
    return known;
  }

  private List<Walked> walk(Key key, Instant firstLeft) {
    ZoneId zone = locations.zone(key.locationId());
    LocalDate to = key.today().minusDays(1);
    if (firstLeft == null) {
      return List.of();
    }
    LocalDate warm = LocalDate.ofInstant(firstLeft, zone).plusDays(WARM_UP_DAYS);
    LocalDate yearAgo = key.today().minusDays(YEAR);
    LocalDate from = warm.isAfter(yearAgo) ? warm : yearAgo;
    if (from.isAfter(to.minusDays(LEAST_DAYS))) {
      return List.of();
    }
    Map<String, ReplayRecords.OfType> read = records.read(key.locationId(), zone, from, to);
    double lead = key.types().stream().mapToInt(PadTypeView::leadDays).average().orElse(0);
    int firstDays = (int) Math.max(1, Math.round((lead + key.terms().reviewDays()) / 2));
    List<Walked> walked = new ArrayList<>();
    for (PadTypeView type : key.types()) {
      ReplayRecords.OfType of = read.get(type.code());
      if (of != null && !of.asked.isEmpty()) {
        walked.add(walk(key, type, of, new Period(from, to), firstDays));
      }
    }
    return walked;
  }

  private static Walked walk(
      Key key, PadTypeView type, ReplayRecords.OfType of, Period period, int firstDays) {
    LocalDate from = period.from();
    PastKnowledge knowledge =
        new PastKnowledge(
            of.takings,
            of.deliveries,
            of.promises,
            new PastKnowledge.Usual(type.leadDays(), type.shelfDays(), firstDays, key.adherence()));
    List<Replay.Supply> supplies =
        of.deliveries.stream()
            .sorted(Comparator.comparing(PastKnowledge.Delivery::orderedOn))
            .map(one -> new Replay.Supply(one.orderedOn(), one.leadDays(), one.keptDays()))
            .toList();
    Replay.Past real = past(key, type, of, period, of.arrivals, supplies);
    // What was ordered before the first day comes in any case; what was ordered later does not.
    List<Replay.Arrival> anyhow =
        of.arrivals.stream()
            .filter(arrival -> arrival.orderedOn() == null || arrival.orderedOn().isBefore(from))
            .toList();
    Replay.Past past = past(key, type, of, period, anyhow, supplies);
    double daily = dailyBefore(of, from);
    double lead =
        of.deliveries.stream()
            .filter(one -> one.cameOn().isBefore(from))
            .mapToInt(PastKnowledge.Delivery::leadDays)
            .average()
            .orElse(type.leadDays());
    int cases = type.packsPerCase();
    return new Walked(
        type,
        period,
        past,
        Replay.walk(real, Replay.Rule.NONE),
        Replay.walk(
            past, morning -> OrderRule.decide(type, key.terms(), knowledge.on(morning)).packs()),
        Math.max(1, Math.round(1.5 * daily * (lead + key.terms().reviewDays()))),
        (long) Math.ceil(Math.max(Math.max(1, type.minimumOrder()), 28 * daily) / cases) * cases,
        of.ordered.size(),
        of.ordered.values().stream().mapToLong(Integer::longValue).sum());
  }

  private static Replay.Past past(
      Key key,
      PadTypeView type,
      ReplayRecords.OfType of,
      Period period,
      List<Replay.Arrival> arrivals,
      List<Replay.Supply> supplies) {
    return new Replay.Past(
        period.from(),
        period.to(),
        of.opening,
        arrivals,
        of.asked,
        of.gone,
        supplies,
        new Replay.Supply(period.from(), type.leadDays(), type.shelfDays()),
        key.terms().reviewDays());
  }

  /** Packs a day in the 26 weeks before, or as far back as there are. */
  private static double dailyBefore(ReplayRecords.OfType of, LocalDate from) {
    LocalDate since = from.minusDays(182);
    List<PastKnowledge.Taking> before =
        of.takings.stream()
            .filter(one -> one.day().isBefore(from) && !one.day().isBefore(since))
            .toList();
    if (before.isEmpty()) {
      return 0;
    }
    long days = Math.max(28, before.get(0).day().until(from, ChronoUnit.DAYS));
    return before.stream().mapToInt(PastKnowledge.Taking::packs).sum() / (double) days;
  }
}
