package clinic.stimshelf.recall;

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

/** A burn, a fault: what happened, with everything as it stood. */
@Entity
@Table(name = "incident")
class Incident {
  @Id
  @SequenceGenerator(name = "incident_seq", sequenceName = "incident_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "incident_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id", updatable = false)
  Long locationId;

  @Enumerated(EnumType.STRING)
  @Column(updatable = false)
  IncidentKind kind;

  @Enumerated(EnumType.STRING)
  @Column(updatable = false)
  Harm harm;

  @Column(name = "patient_id", updatable = false)
  Long patientId;

  @Column(name = "loan_id", updatable = false)
  Long loanId;

  @Column(name = "unit_id", updatable = false)
  Long unitId;

  @Column(updatable = false)
  String words;

  @Column(name = "happened_at", updatable = false)
  Instant happenedAt;

  @Column(name = "recorded_at", updatable = false)
  Instant recordedAt;

  @Column(name = "by_name", updatable = false)
  String byName;

  /** The day from which the report clock counts. */
  @Column(name = "aware_on", updatable = false)
  LocalDate awareOn;

  /** Work days the clock runs, as the location had set when it was entered. */
  @Column(name = "report_days", updatable = false)
  int reportDays;

  @Column(name = "snapshot", updatable = false)
  String snapshot;

  @Enumerated(EnumType.STRING)
  RecallState state;

  @Column(name = "closed_at")
  Instant closedAt;

  @Column(name = "closed_by")
  String closedBy;

  @Column(name = "closed_words")
  String closedWords;

  boolean open() {
    return state == RecallState.OPEN;
  }
}
