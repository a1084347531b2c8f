package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;

/** Pads of one type that lie by the treatment tables, within reach. */
@Entity
@Table(name = "treatment_drawer")
class TreatmentDrawer {
  @Id
  @SequenceGenerator(
      name = "treatment_drawer_seq",
      sequenceName = "treatment_drawer_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "treatment_drawer_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  String name;

  @Column(name = "pad_type_id")
  Long padTypeId;

  /** Packs that should lie there in the morning. */
  @Column(name = "fill_to")
  int fillTo;

  /** Packs that should lie there now; they are part of what the cupboard has. */
  int packs;
}
