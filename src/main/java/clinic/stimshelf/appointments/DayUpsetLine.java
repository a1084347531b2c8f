package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** What became of one appointment. */
@Entity
@Table(name = "day_upset_line")
class DayUpsetLine {
  @Id
  @SequenceGenerator(
      name = "day_upset_line_seq",
      sequenceName = "day_upset_line_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "day_upset_line_seq")
  Long id;

  @Column(name = "upset_id")
  Long upsetId;

  @Column(name = "appointment_id")
  Long appointmentId;

  /** unit or therapist. */
  String what;

  String was;

  /** {@code null} where nobody and nothing could be found. */
  String becomes;
}
