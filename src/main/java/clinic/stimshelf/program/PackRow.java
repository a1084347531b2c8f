package clinic.stimshelf.program;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.LocalDate;

/** Packs of a signed version: without a day they leave with the unit. */
@Entity
@Table(name = "program_pack")
class PackRow {
  @Id
  @SequenceGenerator(
      name = "program_pack_seq",
      sequenceName = "program_pack_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_pack_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "version_id")
  ProgramVersion version;

  @Column(name = "pad_code")
  String padCode;

  @Column(name = "on_day")
  LocalDate onDay;

  int packs;
}
