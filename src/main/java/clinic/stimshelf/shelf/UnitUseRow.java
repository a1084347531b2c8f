package clinic.stimshelf.shelf;

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

/** One use of a unit. While it runs, its active number keeps every other use of the unit out. */
@Entity
@Table(name = "unit_use")
class UnitUseRow {
  @Id
  @SequenceGenerator(name = "unit_use_seq", sequenceName = "unit_use_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "unit_use_seq")
  Long id;

  @Version int version;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "active_unit_id")
  Long activeUnitId;

  @Enumerated(EnumType.STRING)
  @Column(name = "use_kind")
  UseKind useKind;

  @Column(name = "subject_id")
  Long subjectId;

  @Column(name = "starts_at")
  Instant startsAt;

  @Column(name = "expected_end")
  Instant expectedEnd;

  @Column(name = "ended_at")
  Instant endedAt;

  /** Sessions known to have been done; {@code null} while nobody counted: then it counts as one. */
  Integer sessions;

  boolean voided;

  boolean isFor(UseKind kind, Long subject) {
    return useKind == kind && subjectId.equals(subject);
  }

  void end(Instant at) {
    endedAt = at.isBefore(startsAt) ? startsAt : at;
    activeUnitId = null;
  }

  void cancel() {
    endedAt = startsAt;
    activeUnitId = null;
    voided = true;
  }
}
