package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** A wipe with a product; it counts once the contact time has passed. */
@Entity
@Table(name = "wipe")
class Wipe {
  @Id
  @SequenceGenerator(name = "wipe_seq", sequenceName = "wipe_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "wipe_seq")
  Long id;

  String ref;

  @Column(name = "unit_id")
  Long unitId;

  String product;

  @Column(name = "contact_minutes")
  int contactMinutes;

  @Column(name = "wiped_at")
  Instant wipedAt;

  @Column(name = "counts_at")
  Instant countsAt;

  @Column(name = "done_by")
  String doneBy;

  String note;
}
