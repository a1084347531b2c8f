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

/** A physical count that goes on for a while, spot by spot. */
@Entity
@Table(name = "count_round")
class CountRound {
  @Id
  @SequenceGenerator(
      name = "count_round_seq",
      sequenceName = "count_round_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "count_round_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  /** The location while it goes on, so that only one does. */
  @Column(name = "open_location_id")
  Long openLocationId;

  @Column(name = "started_at")
  Instant startedAt;

  @Column(name = "closed_at")
  Instant closedAt;

  @Column(name = "started_by")
  String startedBy;
}
