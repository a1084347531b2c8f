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
import java.time.Instant;

/** Somebody looked at a unit and found a signed version's setting on it. */
@Entity
@Table(name = "program_setting")
class SettingConfirmed {
  @Id
  @SequenceGenerator(
      name = "program_setting_seq",
      sequenceName = "program_setting_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_setting_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "program_id")
  Program program;

  @Column(name = "version_number")
  int versionNumber;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "unit_tag")
  String unitTag;

  @Column(name = "setting_text")
  String settingText;

  @Column(name = "confirmed_at")
  Instant confirmedAt;

  @Column(name = "confirmed_by")
  Long confirmedBy;
}
