package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;

/** Packs of a lot that were counted at one spot. */
@Entity
@Table(name = "count_line")
class CountLine {
  @Id
  @SequenceGenerator(name = "count_line_seq", sequenceName = "count_line_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "count_line_seq")
  Long id;

  @Version int version;

  @Column(name = "round_id")
  Long roundId;

  String spot;

  @Column(name = "lot_id")
  Long lotId;

  int packs;

  @Column(name = "counted_at")
  Instant countedAt;
}
