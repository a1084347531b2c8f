package clinic.stimshelf.pads;

import jakarta.persistence.CascadeType;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** What was ordered for a location, and how much of it has come. */
@Entity
@Table(name = "supply_order")
class SupplyOrder {
  @Id
  @SequenceGenerator(
      name = "supply_order_seq",
      sequenceName = "supply_order_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "supply_order_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "location_id")
  Long locationId;

  String supplier;

  @Column(name = "ordered_on")
  LocalDate orderedOn;

  @Column(name = "expected_on")
  LocalDate expectedOn;

  @Enumerated(EnumType.STRING)
  OrderState state;

  String note;

  @Column(name = "ordered_by")
  String orderedBy;

  @Column(name = "mailed_to")
  String mailedTo;

  @Column(name = "mailed_at")
  Instant mailedAt;

  /** When somebody last asked the supplier after it. */
  @Column(name = "asked_at")
  Instant askedAt;

  @OneToMany(mappedBy = "supplyOrder", cascade = CascadeType.PERSIST)
  @OrderBy("id")
  List<SupplyOrderLine> lines = new ArrayList<>();
}
