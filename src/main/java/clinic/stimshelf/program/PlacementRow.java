package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** A placement of one version. */
@Entity
@Table(name = "program_placement")
class PlacementRow {
  @Id
  @SequenceGenerator(
      name = "program_placement_seq",
      sequenceName = "program_placement_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_placement_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "version_id")
  ProgramVersion version;

  int place;

  String muscle;

  @Enumerated(EnumType.STRING)
  Side side;

  int channels;

  @Column(name = "pads_where")
  String padsWhere;

  Placement view() {
    return new Placement(muscle, side, channels, padsWhere);
  }
}
