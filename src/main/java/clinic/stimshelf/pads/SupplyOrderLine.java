package clinic.stimshelf.pads;

import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.math.BigDecimal;

/** One pad type of an order. On order is what is neither delivered nor cancelled. */
@Entity
@Table(name = "supply_order_line")
class SupplyOrderLine {
  @Id
  @SequenceGenerator(
      name = "supply_order_line_seq",
      sequenceName = "supply_order_line_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "supply_order_line_seq")
  Long id;

  @Version int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "order_id")
  SupplyOrder supplyOrder;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pad_type_id")
  PadType type;

  int packs;
  int delivered;
  int cancelled;
  BigDecimal price;

  int open() {
    return Math.max(0, packs - delivered - cancelled);
  }
}
