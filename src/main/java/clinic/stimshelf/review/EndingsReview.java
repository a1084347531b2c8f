package clinic.stimshelf.review;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.outcome.Reached;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.Outcome;
import clinic.stimshelf.review.EndingsView.Bar;
import clinic.stimshelf.review.EndingsView.Given;
import clinic.stimshelf.review.EndingsView.Month;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * How many programs end abandoned, and how far in. Far is the share of a program's days up to the
 * last session known to be done, so that the day on which somebody noticed does not count.
 */
@ApplicationScoped
class EndingsReview {
  private static final int SHOWN = 30;
  private static final List<String> FAR =
      List.of(
          "no session known to be done",
          "in the first quarter",
          "in the second quarter",
          "in the third quarter",
          "in the last quarter");
  private static final DateTimeFormatter MONTH =
      DateTimeFormatter.ofPattern("MMMM yyyy", Locale.US);

  @Inject EntityManager em;
  @Inject Locations locations;
  @Inject Patients patients;

  private record Ended(
      Long id,
      Long patientId,
      LocalDate on,
      boolean stopped,
      boolean abandoned,
      String reason,
      LocalDate began,
      LocalDate last) {}

  @Transactional
  EndingsView of(Collection<Long> at, Period period) {
    List<Ended> ended = ended(at, period);
    List<Ended> abandoned =
        ended.stream()
            .filter(Ended::abandoned)
            .sorted(Comparator.comparing(Ended::on).thenComparing(Ended::id).reversed())
            .toList();
    Map<Long, LocalDate> done = lastDone(abandoned);
    int[] far = new int[FAR.size()];
    abandoned.forEach(one -> far[quarter(one, done.get(one.id()))]++);
    int stopped = (int) ended.stream().filter(one -> one.stopped() && !one.abandoned()).count();
    return new EndingsView(
        ended.size(),
        abandoned.size(),
        ended.isEmpty() ? "–" : Math.round(100.0 * abandoned.size() / ended.size()) + " %",
        bars(
            List.of("ran to the last session", "stopped by decision", "abandoned"),
            new int[] {ended.size() - stopped - abandoned.size(), stopped, abandoned.size()}),
        bars(FAR, far),
        months(ended),
        given(abandoned.stream().limit(SHOWN).toList(), done),
        Math.max(0, abandoned.size() - SHOWN));
  }

  private List<Ended> ended(Collection<Long> at, Period period) {
    Map<Long, ZoneId> zones =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::zone));
    List<Ended> found = new ArrayList<>();
    for (Object[] row :
        em.createQuery(
                "select p.id, p.patientId, p.locationId, p.stoppedAt, p.abandoned, p.stopReason,"
                    + " (select min(f.startsOn) from ProgramVersion f where f.program = p and"
                    + " f.signedAt is not null), v.lastSessionOn from Program p join p.versions v"
                    + " where v.number = p.signedNumber and p.locationId in :at and"
                    + " ((p.stoppedAt >= :since and p.stoppedAt < :until) or"
                    + " (p.stoppedAt is null and v.lastSessionOn between :from and :to))",
                Object[].class)
            .setParameter("at", at)
            .setParameter(
                "since", period.from().minusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant())
            .setParameter("until", period.to().plusDays(2).atStartOfDay(ZoneOffset.UTC).toInstant())
            .setParameter("from", period.from())
            .setParameter("to", period.to())
            .getResultList()) {
      Instant stoppedAt = (Instant) row[3];
      ZoneId zone = zones.get((Long) row[2]);
      LocalDate last = (LocalDate) row[7];
      LocalDate on = stoppedAt == null ? last : LocalDate.ofInstant(stoppedAt, zone);
      boolean over = stoppedAt != null || last.isBefore(locations.today((Long) row[2]));
      if (over && !on.isBefore(period.from()) && !on.isAfter(period.to())) {
        found.add(
            new Ended(
                (Long) row[0],
                (Long) row[1],
                on,
                stoppedAt != null,
                (Boolean) row[4],
                (String) row[5],
                (LocalDate) row[6],
                last));
      }
    }
    return found;
  }

  private Map<Long, LocalDate> lastDone(List<Ended> abandoned) {
    Map<Long, LocalDate> last = new HashMap<>();
    if (!abandoned.isEmpty()) {
      em.createQuery(
              "select s.programId, max(s.onDay) from SessionLog s where s.programId in :ids and"
                  + " s.standingNth is not null and s.outcome <> :not group by s.programId",
              Object[].class)
          .setParameter("ids", abandoned.stream().map(Ended::id).toList())
          .setParameter("not", Outcome.NOT)
          .getResultList()
          .forEach(row -> last.put((Long) row[0], (LocalDate) row[1]));
    }
    return last;
  }

  private static Reached reached(Ended one, LocalDate done) {
    return Reached.of(Span.of(one.began(), one.last().plusDays(1)), done);
  }

  private static int quarter(Ended one, LocalDate done) {
    return done == null ? 0 : reached(one, done).quarter();
  }

  private static List<Bar> bars(List<String> words, int[] counts) {
    int most = 1;
    for (int count : counts) {
      most = Math.max(most, count);
    }
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < counts.length; i++) {
      bars.add(new Bar(words.get(i), counts[i], 100 * counts[i] / most));
    }
    return bars;
  }

  private static List<Month> months(List<Ended> ended) {
    Map<YearMonth, int[]> counts = new TreeMap<>();
    for (Ended one : ended) {
      int[] count = counts.computeIfAbsent(YearMonth.from(one.on()), month -> new int[2]);
      count[0]++;
      count[1] += one.abandoned() ? 1 : 0;
    }
    int most = counts.values().stream().mapToInt(count -> count[1]).max().orElse(0);
    return counts.entrySet().stream()
        .map(
            row ->
                new Month(
                    MONTH.format(row.getKey()),
                    row.getValue()[0],
                    row.getValue()[1],
                    most == 0 ? 0 : 100 * row.getValue()[1] / most))
        .toList();
  }

  private List<Given> given(List<Ended> shown, Map<Long, LocalDate> done) {
    Map<Long, PatientView> who = patients.byIds(shown.stream().map(Ended::patientId).toList());
    return shown.stream()
        .map(
            one -> {
              PatientView patient = who.get(one.patientId());
              LocalDate last = done.get(one.id());
              return new Given(
                  "/programs/" + one.id(),
                  patient.name(),
                  patient.chartNumber(),
                  Days.full(one.on()),
                  last == null
                      ? "none known"
                      : reached(one, last).percent() + " %, last done " + Days.shortly(last),
                  one.reason());
            })
        .toList();
  }
}
