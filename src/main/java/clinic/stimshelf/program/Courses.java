package clinic.stimshelf.program;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Planned and done sessions of many programs in a period, with as many questions as for one. */
@ApplicationScoped
public class Courses {
  /** Packs leave some days before a program's start and come back sealed after its end. */
  private static final int DAYS_BEFORE = 42;

  private static final int DAYS_AFTER = 90;

  /** Signed programs with a day in or near the period. */
  private static final String RUNNING =
      " where p.locationId in :at and p.signedNumber is not null and exists (select 1 from"
          + " ProgramVersion x where x.program = p and x.signedAt is not null and"
          + " x.startsOn <= :soon and x.endsBefore > :lately)";

  @Inject EntityManager em;
  @Inject Templates templates;
  @Inject Locations locations;

  /** Sessions of a day, or of the whole period. */
  private record Counts(int done, int known) {
    Counts plus(Counts other) {
      return new Counts(done + other.done, known + other.known);
    }
  }

  /**
   * Programs of the locations with a day in or near the period, in the order of their numbers.
   * Sessions after today are not counted: nobody could have done them.
   *
   * @param from first day
   * @param to last day
   */
  @Transactional
  public List<Course> between(Collection<Long> locationIds, LocalDate from, LocalDate to) {
    List<Program> programs =
        rows(
            "select distinct p from Program p join fetch p.versions" + RUNNING + " order by p.id",
            Program.class,
            locationIds,
            from,
            to);
    if (programs.isEmpty()) {
      return List.of();
    }
    // Each of these fills the collections of what was read above.
    rows(
        "select distinct p from Program p left join fetch p.pauses" + RUNNING,
        Program.class,
        locationIds,
        from,
        to);
    String versions = "select distinct v from ProgramVersion v join v.program p left join fetch v.";
    rows(versions + "pads" + RUNNING, ProgramVersion.class, locationIds, from, to);
    rows(versions + "placements" + RUNNING, ProgramVersion.class, locationIds, from, to);
    Map<Long, Map<LocalDate, Counts>> counts = counts(locationIds, from, to);
    Map<Long, ZoneId> zones = new HashMap<>();
    Map<Long, LocalDate> todays = new HashMap<>();
    List<Course> courses = new ArrayList<>();
    for (Program program : programs) {
      ZoneId zone = zones.computeIfAbsent(program.locationId, locations::zone);
      LocalDate today = todays.computeIfAbsent(program.locationId, locations::today);
      courses.add(
          course(
              program,
              Planned.of(program, zone),
              counts.getOrDefault(program.id, Map.of()),
              zone,
              from,
              to.isAfter(today) ? today : to));
    }
    return courses;
  }

  private <T> List<T> rows(
      String query, Class<T> type, Collection<Long> at, LocalDate from, LocalDate to) {
    TypedQuery<T> asked = em.createQuery(query, type);
    return asked
        .setParameter("at", at)
        .setParameter("lately", from.minusDays(DAYS_AFTER))
        .setParameter("soon", to.plusDays(DAYS_BEFORE))
        .setHint("org.hibernate.readOnly", true)
        .getResultList();
  }

  private Map<Long, Map<LocalDate, Counts>> counts(
      Collection<Long> at, LocalDate from, LocalDate to) {
    Map<Long, Map<LocalDate, Counts>> counts = new HashMap<>();
    em.createQuery(
            "select s.programId, s.onDay, sum(case when s.outcome = :not then 0 else 1 end),"
                + " count(s) from SessionLog s, Program p where p.id = s.programId and"
                + " p.locationId in :at and s.onDay between :from and :to and"
                + " s.standingNth is not null group by s.programId, s.onDay",
            Object[].class)
        .setParameter("not", Outcome.NOT)
        .setParameter("at", at)
        .setParameter("from", from)
        .setParameter("to", to)
        .getResultList()
        .forEach(
            row ->
                counts
                    .computeIfAbsent((Long) row[0], program -> new HashMap<>())
                    .put(
                        (LocalDate) row[1],
                        new Counts(((Number) row[2]).intValue(), ((Number) row[3]).intValue())));
    return counts;
  }

  private Course course(
      Program program,
      Planned planned,
      Map<LocalDate, Counts> byDay,
      ZoneId zone,
      LocalDate from,
      LocalDate until) {
    TreeMap<LocalDate, ProgramVersion> inForce = inForce(program, zone);
    Map<ProgramVersion, int[]> byVersion = new HashMap<>();
    int sessions = 0;
    int noEntry = 0;
    LocalDate last = planned.last();
    LocalDate first = planned.start().isAfter(from) ? planned.start() : from;
    for (LocalDate day = first; !day.isAfter(until); day = day.plusDays(1)) {
      if (day.isAfter(last) && !byDay.containsKey(day)) {
        continue;
      }
      int wanted = planned.on(day);
      Counts counted = byDay.getOrDefault(day, new Counts(0, 0));
      if (wanted > 0 || counted.known() > 0) {
        Map.Entry<LocalDate, ProgramVersion> version = inForce.floorEntry(day);
        int[] sums =
            byVersion.computeIfAbsent(
                version == null ? inForce.firstEntry().getValue() : version.getValue(),
                v -> new int[2]);
        sums[0] += wanted;
        sums[1] += counted.done();
        sessions += wanted;
        noEntry += Math.max(0, wanted - counted.known());
      }
    }
    int done = byVersion.values().stream().mapToInt(sums -> sums[1]).sum();
    boolean ended =
        program.state != ProgramState.STOPPED && !last.isBefore(from) && !last.isAfter(until);
    return new Course(
        program.id,
        program.locationId,
        program.patientId,
        program.therapistId,
        templates.find(program.signed().template).map(Template::title).orElse(null),
        planned.start(),
        last,
        ended,
        sessions,
        done,
        noEntry,
        lines(program.signed(), byVersion));
  }

  /** Signed versions by the first day on which each counts, as {@link Planned} has them. */
  private static TreeMap<LocalDate, ProgramVersion> inForce(Program program, ZoneId zone) {
    TreeMap<LocalDate, ProgramVersion> inForce = new TreeMap<>();
    program.versions.stream()
        .filter(version -> version.signedAt != null)
        .sorted(Comparator.comparingInt(version -> version.number))
        .forEach(
            version -> {
              LocalDate signed = LocalDate.ofInstant(version.signedAt, zone);
              LocalDate first =
                  inForce.isEmpty() || version.startsOn.isAfter(signed) ? version.startsOn : signed;
              inForce.tailMap(first, true).clear();
              inForce.put(first, version);
            });
    return inForce;
  }

  private static List<Course.Line> lines(
      ProgramVersion signed, Map<ProgramVersion, int[]> byVersion) {
    Map<List<Object>, int[]> merged = new LinkedHashMap<>();
    // The version in force first, so that packs given without a session find a line as well.
    Map<ProgramVersion, int[]> all = new LinkedHashMap<>();
    all.put(signed, byVersion.getOrDefault(signed, new int[2]));
    all.putAll(byVersion);
    all.forEach(
        (version, sums) ->
            version.pads.stream()
                .filter(line -> line.padsPerPack != null && line.usesPerSet != null)
                .forEach(
                    line -> {
                      int[] sum =
                          merged.computeIfAbsent(
                              List.of(
                                  line.padCode, line.perSession, line.padsPerPack, line.usesPerSet),
                              key -> new int[2]);
                      sum[0] += sums[0];
                      sum[1] += sums[1];
                    }));
    List<Course.Line> lines = new ArrayList<>();
    merged.forEach(
        (key, sum) ->
            lines.add(
                new Course.Line(
                    (String) key.get(0),
                    (Integer) key.get(1),
                    (Integer) key.get(2),
                    (Integer) key.get(3),
                    sum[0],
                    sum[1])));
    return lines;
  }
}
