package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;

/**
 * Packs of a lot in the cupboard of a location. Read and changed by statements only, in the
 * transaction of the movement, so that what two people do at once can never lose a pack.
 */
@Entity
@Table(name = "stock_balance")
@IdClass(StockBalanceId.class)
class StockBalance {
  @Id
  @Column(name = "lot_id")
  Long lotId;

  @Id
  @Column(name = "location_id")
  Long locationId;

  int packs;
}
