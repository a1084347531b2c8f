package clinic.stimshelf.location;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** A value in which a location differs from the proposal. */
@Entity
@Table(name = "location_setting")
class LocationSetting {
  @Id
  @SequenceGenerator(
      name = "location_setting_seq",
      sequenceName = "location_setting_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "location_setting_seq")
  Long id;

  @Column(name = "location_id")
  Long locationId;

  String name;

  @Column(name = "setting_value")
  String settingValue;
}
