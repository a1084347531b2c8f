package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;

/** What somebody counted in the cupboard, beside what the ledger said. */
@Entity
@Immutable
@Table(name = "stock_count")
class StockCount {
  @Id
  @SequenceGenerator(
      name = "stock_count_seq",
      sequenceName = "stock_count_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "stock_count_seq")
  Long id;

  @Column(name = "lot_id")
  Long lotId;

  @Column(name = "location_id")
  Long locationId;

  int counted;
  int expected;
  String reason;

  @Column(name = "movement_id")
  Long movementId;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "staff_name")
  String staffName;
}
