package clinic.stimshelf.pads;

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
import java.math.BigDecimal;

/** A kind of pads the clinic buys. */
@Entity
@Table(name = "pad_type")
class PadType {
  @Id
  @SequenceGenerator(name = "pad_type_seq", sequenceName = "pad_type_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "pad_type_seq")
  Long id;

  @Version int version;
  String ref;
  String code;
  String name;

  @Enumerated(EnumType.STRING)
  PadShape shape;

  @Column(name = "width_mm")
  int widthMm;

  @Column(name = "height_mm")
  int heightMm;

  String connector;

  @Column(name = "pads_per_pack")
  int padsPerPack;

  @Column(name = "sets_per_pouch")
  int setsPerPouch;

  @Column(name = "rated_uses")
  int ratedUses;

  @Column(name = "open_days")
  int openDays;

  BigDecimal price;
  String supplier;

  @Column(name = "lead_days")
  int leadDays;

  @Column(name = "packs_per_case")
  int packsPerCase;

  @Column(name = "minimum_order")
  int minimumOrder;

  @Column(name = "order_cost")
  BigDecimal orderCost;

  @Column(name = "holding_cost")
  BigDecimal holdingCost;

  @Column(name = "shelf_days")
  int shelfDays;

  boolean active;

  PadTypeView view() {
    return new PadTypeView(
        id,
        code,
        name,
        shape,
        widthMm,
        heightMm,
        connector,
        padsPerPack,
        setsPerPouch,
        ratedUses,
        openDays,
        price,
        supplier,
        leadDays,
        packsPerCase,
        minimumOrder,
        orderCost,
        holdingCost,
        shelfDays,
        active,
        version);
  }
}
