package clinic.stimshelf.location;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.LocalTime;

/**
 * A stretch of a weekday during which the location is open; two with a break between are allowed.
 */
@Entity
@Table(name = "opening_hours")
class OpeningHours {
  @Id
  @SequenceGenerator(
      name = "opening_hours_seq",
      sequenceName = "opening_hours_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "opening_hours_seq")
  Long id;

  @Column(name = "location_id")
  Long locationId;

  /** ISO number: 1 is Monday, 7 is Sunday. */
  int weekday;

  LocalTime opens;
  LocalTime closes;
}
