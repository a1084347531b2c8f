package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Appointments that another system keeps, told again and again: new ones are booked, moved ones
 * moved, cancelled ones cancelled. A row that does not fit is parked with why, the others go on.
 */
@ApplicationScoped
class OutsideSchedule {
  private static final int MOST_ROWS = 5_000;
  private static final int SHOWN = 200;

  @Inject OutsideTaker taker;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** What came of a file. */
  record Told(int booked, int moved, int cancelled, int same, int parked) {}

  /** A row that waits. */
  record Parked(Long id, String key, String chart, Instant startsAt, String why, Instant seenAt) {}

  /**
   * Takes a file over.
   *
   * @param name of the file, for its faults
   * @param channels of a treatment where the file says nothing; 0 for none
   * @param whole whether the file holds everything between its first and last start, so that what
   *     is missing was cancelled
   * @throws Refusal if the file cannot be read at all
   */
  Told take(Long locationId, String name, byte[] bytes, int channels, boolean whole) {
    signedIn.requireLocation(locationId);
    if (channels < 0 || channels > 8) {
      throw new Refusal("channels", "A treatment needs 1 to 8 channels, or 0 for no unit.");
    }
    List<OutsideRow> rows = new ArrayList<>(read(locationId, name, bytes));
    if (rows.size() > MOST_ROWS) {
      throw new Refusal(
          "file", rows.size() + " rows are more than 5 000.", "Bring in fewer weeks at once.");
    }
    if (rows.isEmpty()) {
      throw new Refusal("file", "The file holds no appointment.");
    }
    if (whole) {
      rows.addAll(missing(locationId, rows));
    }
    return takeAll(locationId, rows, channels);
  }

  /** Tries one parked row again, as it was told last. */
  boolean again(Long id, int channels) {
    OutsideAppointment row = parked(id);
    return takeAll(row.locationId, List.of(row.row()), channels).parked() == 0;
  }

  /** Forgets a parked row until the other system tells of it again. */
  @Transactional
  void drop(Long id) {
    OutsideAppointment row = taker.findById(parked(id).id);
    if (row.appointmentId == null) {
      taker.delete(row);
    } else {
      row.parked = null;
    }
  }

  /** What waits at a location, the latest told first. */
  @Transactional
  List<Parked> parked(Long locationId, int most) {
    signedIn.requireLocation(locationId);
    return taker
        .find("locationId = ?1 and parked is not null order by seenAt desc, id desc", locationId)
        .page(0, Math.min(most, SHOWN))
        .stream()
        .map(
            row ->
                new Parked(row.id, row.outsideKey, row.chart, row.startsAt, row.parked, row.seenAt))
        .toList();
  }

  @Transactional
  long waiting(Long locationId) {
    return taker.count("locationId = ?1 and parked is not null", locationId);
  }

  @Transactional
  OutsideAppointment parked(Long id) {
    OutsideAppointment row = id == null ? null : taker.findById(id);
    if (row == null || row.parked == null || !signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such parked row at your locations.");
    }
    return row;
  }

  private List<OutsideRow> read(Long locationId, String name, byte[] bytes) {
    ZoneId zone = locations.zone(locationId);
    String text = new String(bytes, StandardCharsets.UTF_8);
    if (OutsideCalendar.is(text)) {
      return OutsideCalendar.read(text, zone);
    }
    try {
      return OutsideCsv.read(name, bytes, new DayText(clock.instant(), zone, false), zone);
    } catch (CsvText.Unreadable unreadable) {
      throw new Refusal("file", unreadable.getMessage());
    }
  }

  private List<OutsideRow> missing(Long locationId, List<OutsideRow> rows) {
    Set<String> told = rows.stream().map(OutsideRow::key).collect(Collectors.toSet());
    List<Instant> starts =
        rows.stream().map(OutsideRow::startsAt).filter(start -> start != null).sorted().toList();
    if (starts.isEmpty()) {
      return List.of();
    }
    return known(locationId, starts.get(0), starts.get(starts.size() - 1)).stream()
        .filter(row -> !told.contains(row.outsideKey))
        .map(OutsideAppointment::row)
        .map(
            row ->
                new OutsideRow(
                    row.key(),
                    row.chart(),
                    row.startsAt(),
                    row.minutes(),
                    row.therapist(),
                    row.room(),
                    row.channels(),
                    true,
                    null))
        .toList();
  }

  @Transactional
  List<OutsideAppointment> known(Long locationId, Instant from, Instant to) {
    Instant now = clock.instant();
    return taker.list(
        "locationId = ?1 and cancelled = false and startsAt >= ?2 and startsAt <= ?3",
        locationId,
        from.isBefore(now) ? now : from,
        to);
  }

  private Told takeAll(Long locationId, List<OutsideRow> rows, int channels) {
    int[] became = new int[OutsideTaker.Became.values().length];
    int parked = 0;
    Set<String> seen = new HashSet<>();
    // What was cancelled or moved away makes room first.
    List<OutsideRow> ordered = new ArrayList<>(rows);
    ordered.sort(java.util.Comparator.comparing(row -> !row.cancelled()));
    for (OutsideRow row : ordered) {
      if (!seen.add(row.key())) {
        continue;
      }
      try {
        became[taker.take(locationId, row, channels).ordinal()]++;
      } catch (Refusal refusal) {
        taker.park(locationId, row, words(refusal));
        parked++;
      } catch (InUse | NotFound other) {
        taker.park(locationId, row, other.getMessage());
        parked++;
      }
    }
    return new Told(became[0], became[1], became[2], became[3], parked);
  }

  private static String words(Refusal refusal) {
    return refusal.reasons().stream().map(Reason::words).collect(Collectors.joining(" "));
  }
}
