package clinic.stimshelf.recall;

import clinic.stimshelf.codes.SerialRange;
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
import java.time.Instant;

/** A lot, units or one unit that everybody who had it must hear about. */
@Entity
@Table(name = "recall")
class Recall {
  @Id
  @SequenceGenerator(name = "recall_seq", sequenceName = "recall_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "recall_seq")
  Long id;

  @Version int version;

  @Enumerated(EnumType.STRING)
  RecallTarget target;

  @Column(name = "lot_id")
  Long lotId;

  @Column(name = "kind_id")
  Long kindId;

  @Column(name = "serial_from")
  String serialFrom;

  @Column(name = "serial_to")
  String serialTo;

  @Column(name = "unit_id")
  Long unitId;

  String reason;

  /** The number under which the maker or a regulator knows it. */
  String reference;

  @Column(name = "begun_at")
  Instant begunAt;

  @Column(name = "begun_by")
  String begunBy;

  @Column(name = "drawers_done_at")
  Instant drawersDoneAt;

  @Column(name = "drawers_done_by")
  String drawersDoneBy;

  @Column(name = "drawers_words")
  String drawersWords;

  @Enumerated(EnumType.STRING)
  RecallState state;

  @Column(name = "closed_at")
  Instant closedAt;

  @Column(name = "closed_by")
  String closedBy;

  @Column(name = "closed_words")
  String closedWords;

  boolean open() {
    return state == RecallState.OPEN;
  }

  boolean names(Long unit, String serial, Long kind) {
    return switch (target) {
      case LOT -> false;
      case UNIT -> unit.equals(unitId);
      case SERIALS -> kind.equals(kindId) && new SerialRange(serialFrom, serialTo).contains(serial);
    };
  }
}
