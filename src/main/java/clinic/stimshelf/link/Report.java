package clinic.stimshelf.link;

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

/** Something a patient reported on their own page. */
@Entity
@Table(name = "report")
class Report {
  @Id
  @SequenceGenerator(name = "report_seq", sequenceName = "report_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "report_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "loan_id")
  Long loanId;

  @Column(name = "program_id")
  Long programId;

  @Enumerated(EnumType.STRING)
  ReportKind kind;

  @Column(name = "reported_at")
  Instant reportedAt;

  /** Whether somebody still has to answer. */
  boolean open;

  @Column(name = "answered_at")
  Instant answeredAt;

  @Column(name = "answered_by")
  String answeredBy;

  String answer;
}
