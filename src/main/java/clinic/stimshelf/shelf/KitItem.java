package clinic.stimshelf.shelf;

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

/** A part that belongs to a unit's kit. */
@Entity
@Table(name = "kit_item")
class KitItem {
  @Id
  @SequenceGenerator(name = "kit_item_seq", sequenceName = "kit_item_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "kit_item_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Enumerated(EnumType.STRING)
  Part part;

  String name;
  String tag;

  @Column(name = "tag_key")
  String tagKey;

  boolean essential;

  @Enumerated(EnumType.STRING)
  PartState state = PartState.PRESENT;

  int position;
}
