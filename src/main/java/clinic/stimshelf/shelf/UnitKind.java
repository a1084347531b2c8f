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
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;

/** A kind of stimulator: units of one kind can stand in for one another. */
@Entity
@Table(name = "unit_kind")
class UnitKind {
  @Id
  @SequenceGenerator(name = "unit_kind_seq", sequenceName = "unit_kind_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "unit_kind_seq")
  Long id;

  @Version int version;
  String ref;
  String code;
  String name;
  int channels;
  String connector;

  @Enumerated(EnumType.STRING)
  @Column(name = "output_scale")
  OutputScale outputScale;

  /** Days after which a charge no longer counts; {@code null} where nothing needs charging. */
  @Column(name = "charge_days")
  Integer chargeDays;

  @Column(name = "cell_type")
  String cellType;

  BigDecimal price;

  @Column(name = "lends_out")
  boolean lendsOut;

  /** Whether a charge of that time still counts. */
  boolean holdsCharge(Instant chargedAt, Instant now) {
    if (chargeDays == null) {
      return true;
    }
    return chargedAt != null && now.isBefore(chargedAt.plus(Duration.ofDays(chargeDays)));
  }
}
