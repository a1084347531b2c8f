package clinic.stimshelf.desk;

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

/** An attempt to reach a patient, and what was said. */
@Entity
@Table(name = "contact")
class Contact {
  @Id
  @SequenceGenerator(name = "contact_seq", sequenceName = "contact_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "contact_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "loan_id")
  Long loanId;

  @Enumerated(EnumType.STRING)
  ContactOutcome outcome;

  @Column(name = "promised_on")
  LocalDate promisedOn;

  String note;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "by_name")
  String byName;

  ContactView view() {
    return new ContactView(
        String.valueOf(id),
        String.valueOf(patientId),
        loanId == null ? null : String.valueOf(loanId),
        outcome,
        promisedOn,
        note,
        happenedAt,
        recordedAt,
        byName);
  }
}
