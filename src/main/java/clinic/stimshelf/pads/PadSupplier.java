package clinic.stimshelf.pads;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;

/** Where orders to a supplier are sent. */
@Entity
@Table(name = "pad_supplier")
class PadSupplier {
  @Id String name;

  String email;
}
