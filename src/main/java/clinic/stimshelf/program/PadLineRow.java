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

/** A pad line of one version, with the facts of its pad type as they stood when it was written. */
@Entity
@Table(name = "program_pad_line")
class PadLineRow {
  @Id
  @SequenceGenerator(
      name = "program_pad_line_seq",
      sequenceName = "program_pad_line_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_pad_line_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "version_id")
  ProgramVersion version;

  int place;

  @Column(name = "pad_code")
  String padCode;

  @Column(name = "per_session")
  int perSession;

  @Column(name = "pads_per_pack")
  Integer padsPerPack;

  @Column(name = "uses_per_set")
  Integer usesPerSet;

  @Column(name = "open_days")
  Integer openDays;

  /** Keeps what the pad type says now; a type that is not known leaves it open. */
  void take(PadFact fact) {
    padsPerPack = fact == null ? null : fact.padsPerPack();
    usesPerSet = fact == null ? null : fact.usesPerSet();
    openDays = fact == null ? null : fact.openDays();
  }

  PadLine view() {
    return new PadLine(padCode, perSession);
  }
}
