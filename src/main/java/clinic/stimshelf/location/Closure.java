package clinic.stimshelf.location;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;

/** A day that differs from the weekly hours: closed, or open for other hours (a half day). */
@Entity
@Table(name = "closure")
class Closure {
  @Id
  @SequenceGenerator(name = "closure_seq", sequenceName = "closure_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "closure_seq")
  Long id;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "on_day")
  LocalDate onDay;

  LocalTime opens;
  LocalTime closes;
  String reason;

  @Column(name = "entered_at")
  Instant enteredAt;

  boolean closedAllDay() {
    return opens == null;
  }
}
