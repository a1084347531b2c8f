package clinic.stimshelf.people;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;

/** A prescriber's order. */
@Entity
@Table(name = "prescriber_order")
class PrescriberOrder {
  @Id
  @SequenceGenerator(
      name = "prescriber_order_seq",
      sequenceName = "prescriber_order_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "prescriber_order_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "patient_id")
  Long patientId;

  String prescriber;

  @Column(name = "ordered_on")
  LocalDate orderedOn;

  @Column(name = "ends_on")
  LocalDate endsOn;

  String ordered;

  String restrictions;

  @Column(name = "recorded_by")
  Long recordedBy;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "withdrawn_at")
  Instant withdrawnAt;

  @Column(name = "withdrawn_reason")
  String withdrawnReason;
}
