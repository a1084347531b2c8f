package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import org.hibernate.annotations.Immutable;

/** A product number that labels carry, and the pad type it stands for. */
@Entity
@Immutable
@Table(name = "pad_identifier")
class PadIdentifier {
  @Id
  @Column(name = "device_identifier")
  String deviceIdentifier;

  @Column(name = "pad_type_id")
  Long padTypeId;
}
