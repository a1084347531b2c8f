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

/** A part that a new unit of the kind comes with. */
@Entity
@Table(name = "kind_part")
class KindPart {
  @Id
  @SequenceGenerator(name = "kind_part_seq", sequenceName = "kind_part_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "kind_part_seq")
  Long id;

  @Column(name = "kind_id")
  Long kindId;

  @Enumerated(EnumType.STRING)
  Part part;

  String name;
  boolean essential;
  int position;
}
