package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;

/** A board of a cupboard or a drawer where units stand. */
@Entity
@Table(name = "storage_spot")
class StorageSpot {
  @Id
  @SequenceGenerator(
      name = "storage_spot_seq",
      sequenceName = "storage_spot_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "storage_spot_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "location_id")
  Long locationId;

  String name;
  int position;
  boolean active = true;
}
