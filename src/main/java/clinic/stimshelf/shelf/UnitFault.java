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
import java.time.Instant;

/** A fault or drop that somebody noticed. */
@Entity
@Table(name = "unit_fault")
class UnitFault {
  @Id
  @SequenceGenerator(name = "unit_fault_seq", sequenceName = "unit_fault_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "unit_fault_seq")
  Long id;

  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Enumerated(EnumType.STRING)
  @Column(name = "fault_kind")
  FaultKind faultKind;

  @Column(name = "noticed_at")
  Instant noticedAt;

  String words;

  @Column(name = "told_by")
  String toldBy;
}
