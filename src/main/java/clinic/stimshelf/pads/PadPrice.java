package clinic.stimshelf.pads;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.LocalDate;

/** The list price of a pack from a day on. */
@Entity
@Table(name = "pad_price")
@IdClass(PadPriceId.class)
class PadPrice {
  @Id
  @Column(name = "pad_type_id")
  Long padTypeId;

  @Id
  @Column(name = "from_day")
  LocalDate fromDay;

  BigDecimal price;
}
