package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;

/** Packs of one type that were made together. */
@Entity
@Table(name = "pad_lot")
class PadLot {
  @Id
  @SequenceGenerator(name = "pad_lot_seq", sequenceName = "pad_lot_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "pad_lot_seq")
  Long id;

  @Version int version;
  String ref;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pad_type_id")
  PadType type;

  @Column(name = "lot_number")
  String number;

  @Column(name = "expires_on")
  LocalDate expiresOn;

  String udi;

  /** Whether the supplier owns it until it is used: it lies here and costs nothing yet. */
  boolean consigned;

  @Enumerated(EnumType.STRING)
  LotState state;

  @Column(name = "state_reason")
  String stateReason;

  @Column(name = "state_since")
  Instant stateSince;
}
