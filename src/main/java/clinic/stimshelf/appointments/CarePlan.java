package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.LocalDate;

/** A plan of care: until when, and how many visits are authorized. */
@Entity
@Table(name = "care_plan")
class CarePlan {
  @Id
  @SequenceGenerator(name = "care_plan_seq", sequenceName = "care_plan_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "care_plan_seq")
  Long id;

  @Version int version;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "first_day")
  LocalDate firstDay;

  @Column(name = "last_day")
  LocalDate lastDay;

  /** {@code null} where nobody limits them. */
  Integer visits;

  @Column(name = "authorized_by")
  String authorizedBy;

  /** Day on which it was ended early, else {@code null}. */
  @Column(name = "ended_on")
  LocalDate endedOn;

  LocalDate last() {
    return endedOn != null && endedOn.isBefore(lastDay) ? endedOn : lastDay;
  }

  boolean covers(LocalDate day) {
    return !day.isBefore(firstDay) && !day.isAfter(last());
  }
}
