package clinic.stimshelf.location;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;

/** A place where the clinic treats people and keeps units. */
@Entity
@Table(name = "location")
class Location {
  @Id
  @SequenceGenerator(name = "location_seq", sequenceName = "location_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "location_seq")
  Long id;

  @Version int version;
  String code;
  String name;
  String zone;
  String phone;
  String address;

  @Column(name = "after_hours_words")
  String afterHoursWords;

  @Column(name = "emergency_words")
  String emergencyWords;
}
