package clinic.stimshelf.remind;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;

/** How a location says something, where it has its own words. */
@Entity
@Table(name = "wording")
class Wording {
  @Id
  @SequenceGenerator(name = "wording_seq", sequenceName = "wording_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "wording_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  String kind;
  String language;
  String words;
}
