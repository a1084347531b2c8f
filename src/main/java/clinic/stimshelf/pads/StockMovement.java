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
import java.time.Instant;
import org.hibernate.annotations.Immutable;

/** A line of the ledger. Written once; a mistake is answered by another line. */
@Entity
@Immutable
@Table(name = "stock_movement")
class StockMovement {
  @Id
  @SequenceGenerator(
      name = "stock_movement_seq",
      sequenceName = "stock_movement_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "stock_movement_seq")
  Long id;

  String ref;

  @Column(name = "lot_id")
  Long lotId;

  @Column(name = "pad_type_id")
  Long padTypeId;

  @Column(name = "location_id")
  Long locationId;

  int packs;

  @Enumerated(EnumType.STRING)
  MovementReason reason;

  @Enumerated(EnumType.STRING)
  @Column(name = "drawer_reason")
  DrawerReason drawerReason;

  String note;

  @Column(name = "later_lot_reason")
  String laterLotReason;

  @Column(name = "loan_id")
  Long loanId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "order_line_id")
  Long orderLineId;

  @Column(name = "transfer_key")
  String transferKey;

  @Column(name = "reverses_id")
  Long reversesId;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "staff_name")
  String staffName;
}
