package clinic.stimshelf.exchange;

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

/** Files that somebody handed over, from their preview to the end. */
@Entity
@Table(name = "import_run")
class ImportRun {
  @Id
  @SequenceGenerator(name = "import_run_seq", sequenceName = "import_run_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "import_run_seq")
  Long id;

  @Version int version;

  @Enumerated(EnumType.STRING)
  @Column(length = 32)
  RunState state;

  @Column(name = "started_by")
  Long startedBy;

  @Column(name = "starter_name")
  String starterName;

  @Column(name = "made_at")
  Instant madeAt;

  /** When the run last said how far it is; one that fell silent was cut off by a stop. */
  @Column(name = "heard_at")
  Instant heardAt;

  @Column(name = "now_reading")
  String nowReading;

  @Column(name = "rows_done")
  long rowsDone;

  @Column(name = "rows_of")
  long rowsOf;

  @Column(name = "outcome_json", columnDefinition = "text")
  String outcomeJson;
}
