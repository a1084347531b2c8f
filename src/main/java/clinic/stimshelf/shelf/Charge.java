package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** A charge, or fresh cells. */
@Entity
@Table(name = "charge")
class Charge {
  @Id
  @SequenceGenerator(name = "charge_seq", sequenceName = "charge_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "charge_seq")
  Long id;

  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "begun_at")
  Instant begunAt;

  @Column(name = "charged_at")
  Instant chargedAt;

  @Column(name = "done_by")
  String doneBy;
}
