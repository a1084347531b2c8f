package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.LocalDate;

/** A location's or a patient's day: a row to lock while something is booked on it. */
@Entity
@Table(name = "resource_day")
class ResourceDay {
  @Id
  @SequenceGenerator(
      name = "resource_day_seq",
      sequenceName = "resource_day_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "resource_day_seq")
  Long id;

  @Column(name = "resource_kind")
  String resourceKind;

  @Column(name = "resource_id")
  Long resourceId;

  @Column(name = "on_day")
  LocalDate onDay;
}
