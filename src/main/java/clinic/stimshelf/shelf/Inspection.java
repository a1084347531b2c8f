package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** A look-over and function test by the checklist. */
@Entity
@Table(name = "inspection")
class Inspection {
  @Id
  @SequenceGenerator(name = "inspection_seq", sequenceName = "inspection_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "inspection_seq")
  Long id;

  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "inspected_at")
  Instant inspectedAt;

  boolean passed;

  @Column(name = "done_by")
  String doneBy;

  String note;
}
