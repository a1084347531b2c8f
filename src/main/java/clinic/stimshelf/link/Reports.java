package clinic.stimshelf.link;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;

/** What patients report, from the moment of it until somebody answered. */
@ApplicationScoped
class Reports {
  /** Unanswered for so many minutes of opening hours, everybody at the location sees it. */
  static final int ESCALATES_AFTER = 60;

  private static final int MOST_A_DAY = 10;
  private static final int LONGEST_CLOSURE = 30;

  @Inject ReportRows rows;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * A patient says that something is not right.
   *
   * @return whether it was taken; after many a day they are asked to call
   */
  @Transactional
  boolean add(SignedProgram program, Long loanId, ReportKind kind) {
    Instant now = clock.instant();
    if (rows.count("loanId = ?1 and reportedAt > ?2", loanId, now.minus(Duration.ofDays(1)))
        >= MOST_A_DAY) {
      return false;
    }
    Report row = new Report();
    row.locationId = program.locationId();
    row.patientId = program.patientId();
    row.loanId = loanId;
    row.programId = program.programId();
    row.kind = kind;
    row.reportedAt = now;
    row.open = kind.wantsAnswer();
    rows.persist(row);
    trail.record(
        Subject.of("loan", loanId),
        row.locationId,
        "patient reported",
        times.now(),
        null,
        Map.of("what", kind.words()));
    return true;
  }

  /**
   * Reports of a location that somebody still has to answer, the gravest first, then the oldest.
   */
  @Transactional
  List<ReportView> open(Long locationId) {
    return rows.list("locationId = ?1 and open = true order by reportedAt, id", locationId).stream()
        .map(this::view)
        .sorted(
            java.util.Comparator.comparing(
                (ReportView one) ->
                    one.kind() == ReportKind.CALL ? 0 : one.kind() == ReportKind.STOP ? 1 : 2))
        .toList();
  }

  /**
   * @throws NotFound if there is none at the person's locations
   */
  @Transactional
  ReportView byId(Long id) {
    return view(row(id));
  }

  /**
   * Somebody answered the patient.
   *
   * @param words what was said or done, 1 to 500 characters
   */
  @Transactional
  void answer(Long id, String words) {
    Report row = row(id);
    Refusals refusals = new Refusals();
    if (!row.open) {
      refusals.add(
          null,
          row.answeredBy == null
              ? "This report needs no answer."
              : row.answeredBy + " answered this report already.");
    }
    if (words == null || words.isBlank() || words.length() > 500) {
      refusals.add("answer", "Say in at most 500 characters what you told the patient.");
    }
    refusals.throwIfAny();
    row.open = false;
    row.answeredAt = clock.instant();
    row.answeredBy = signedIn.name();
    row.answer = words.strip();
    trail.record(
        Subject.of("loan", row.loanId),
        row.locationId,
        "report answered",
        times.now(),
        Map.of("what", row.kind.words()),
        Map.of("answer", row.answer));
  }

  private Report row(Long id) {
    Report row = id == null ? null : rows.findById(id);
    if (row == null || !signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such report at your locations.");
    }
    return row;
  }

  private ReportView view(Report row) {
    long minutes = row.open ? openMinutes(row.locationId, row.reportedAt, clock.instant()) : 0;
    return new ReportView(
        row.id,
        row.locationId,
        row.patientId,
        row.loanId,
        row.programId,
        row.kind,
        row.reportedAt,
        row.open,
        minutes,
        row.open && minutes >= ESCALATES_AFTER,
        row.answeredAt,
        row.answeredBy,
        row.answer);
  }

  /** Minutes of opening hours between two instants, counted up to a month back. */
  private long openMinutes(Long locationId, Instant from, Instant to) {
    ZoneId zone = locations.zone(locationId);
    LocalDate last = LocalDate.ofInstant(to, zone);
    LocalDate first = LocalDate.ofInstant(from, zone);
    Duration open = Duration.ZERO;
    for (LocalDate day =
            first.isBefore(last.minusDays(LONGEST_CLOSURE))
                ? last.minusDays(LONGEST_CLOSURE)
                : first;
        !day.isAfter(last) && open.toMinutes() < ESCALATES_AFTER;
        day = day.plusDays(1)) {
      for (DayHours hours : locations.hours(locationId, day)) {
        Instant opens = day.atTime(hours.opens()).atZone(zone).toInstant();
        Instant closes = day.atTime(hours.closes()).atZone(zone).toInstant();
        Instant begins = opens.isAfter(from) ? opens : from;
        Instant ends = closes.isBefore(to) ? closes : to;
        if (begins.isBefore(ends)) {
          open = open.plus(Duration.between(begins, ends));
        }
      }
    }
    return open.toMinutes();
  }
}
