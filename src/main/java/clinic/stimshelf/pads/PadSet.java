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
import java.time.LocalDate;

/** Pads one patient uses at one placement, from the opening of the pouch until thrown away. */
@Entity
@Table(name = "pad_set")
class PadSet {
  @Id
  @SequenceGenerator(name = "pad_set_seq", sequenceName = "pad_set_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "pad_set_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "program_id")
  Long programId;

  @Column(name = "location_id")
  Long locationId;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "pad_type_id")
  PadType type;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "lot_id")
  PadLot lot;

  int pads;
  String placement;

  @Column(name = "opened_on")
  LocalDate openedOn;

  int uses;

  /** What the type was rated for when it was opened. */
  @Column(name = "rated_uses")
  int ratedUses;

  /** Sessions nobody told of that probably took place; fixed when the set ends. */
  @Column(name = "expected_uses")
  int expectedUses;

  /** Whether nobody told of the opening: it is taken to have followed the packs. */
  @Column(name = "opening_assumed")
  boolean openingAssumed;

  @Enumerated(EnumType.STRING)
  PadOutcome outcome;

  @Column(name = "closed_on")
  LocalDate closedOn;

  /** Why it must not be used any more although nobody threw it away. */
  @Column(name = "held_reason")
  String heldReason;

  @Column(name = "discard_reason")
  String discardReason;
}
