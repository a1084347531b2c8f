package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;

/** When a therapist treats nobody. */
@Entity
@Table(name = "time_off")
class TimeOff {
  @Id
  @SequenceGenerator(name = "time_off_seq", sequenceName = "time_off_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "time_off_seq")
  Long id;

  @Version int version;

  @Column(name = "staff_id")
  Long staffId;

  @Enumerated(EnumType.STRING)
  OffKind kind;

  @Column(name = "first_day")
  LocalDate firstDay;

  /** {@code null} without end. */
  @Column(name = "last_day")
  LocalDate lastDay;

  /** ISO number where it is weekly, else {@code null}. */
  Integer weekday;

  /** {@code null} for the whole day, with {@link #ends}. */
  LocalTime begins;

  LocalTime ends;
  String words;

  boolean on(LocalDate day) {
    return !day.isBefore(firstDay)
        && (lastDay == null || !day.isAfter(lastDay))
        && (weekday == null || weekday == day.getDayOfWeek().getValue());
  }

  /** Its time on a day. */
  Span<Instant> span(LocalDate day, ZoneId zone) {
    return begins == null
        ? Span.of(
            day.atStartOfDay(zone).toInstant(), day.plusDays(1).atStartOfDay(zone).toInstant())
        : Span.of(day.atTime(begins).atZone(zone).toInstant(), end(day, zone));
  }

  /** A clock that is put forward may swallow the whole time; then a minute is left. */
  private Instant end(LocalDate day, ZoneId zone) {
    Instant start = day.atTime(begins).atZone(zone).toInstant();
    Instant end = day.atTime(ends).atZone(zone).toInstant();
    return end.isAfter(start) ? end : start.plusSeconds(60);
  }
}
