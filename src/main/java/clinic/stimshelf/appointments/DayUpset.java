package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.LocalDate;

/** Something that made the plan of a day another one. */
@Entity
@Table(name = "day_upset")
class DayUpset {
  static final String UNIT = "unit-failed";
  static final String THERAPIST = "called-out";

  @Id
  @SequenceGenerator(name = "day_upset_seq", sequenceName = "day_upset_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "day_upset_seq")
  Long id;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "on_day")
  LocalDate onDay;

  String cause;
  String words;

  @Column(name = "entered_at")
  Instant enteredAt;

  @Column(name = "entered_by")
  Long enteredBy;
}
