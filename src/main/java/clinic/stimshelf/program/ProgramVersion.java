package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import jakarta.persistence.CascadeType;
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
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hibernate.annotations.BatchSize;

/**
 * One version of a program. What a therapist writes may hold blanks until it is signed; what is
 * fixed by the signature is kept beside it.
 */
@Entity
@Table(name = "program_version")
class ProgramVersion {
  @Id
  @SequenceGenerator(
      name = "program_version_seq",
      sequenceName = "program_version_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_version_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "program_id")
  Program program;

  int number;

  @Enumerated(EnumType.STRING)
  VersionState state;

  @Column(name = "template_key")
  String template;

  @Column(name = "on_seconds")
  BigDecimal onSeconds;

  @Column(name = "off_seconds")
  BigDecimal offSeconds;

  @Column(name = "ramp_up_seconds")
  BigDecimal rampUpSeconds;

  @Column(name = "ramp_down_seconds")
  BigDecimal rampDownSeconds;

  @Column(name = "ramp_inside_on")
  Boolean rampInsideOn;

  @Column(name = "drop_last_rest")
  Boolean dropLastRest;

  Integer contractions;

  BigDecimal minutes;

  @Column(name = "frequency_hz")
  BigDecimal frequencyHz;

  @Enumerated(EnumType.STRING)
  @Column(name = "frequency_kind")
  FrequencyKind frequencyKind;

  @Column(name = "pulse_width_us")
  BigDecimal pulseWidthUs;

  String intensity;

  @Column(name = "limit_ma")
  BigDecimal limitMa;

  @Column(name = "sessions_per_day")
  Integer sessionsPerDay;

  @Column(name = "days_per_week")
  Integer daysPerWeek;

  /** Names of the weekdays, comma between; {@code null} where only their number is given. */
  String weekdays;

  Integer weeks;

  @Column(name = "starts_on")
  LocalDate startsOn;

  @Enumerated(EnumType.STRING)
  @Column(name = "due_kind")
  DueDay.Kind dueKind;

  @Column(name = "setting_text")
  String settingText;

  @Column(columnDefinition = "text")
  String cautions;

  @Column(columnDefinition = "text")
  String instructions;

  @Column(name = "drafted_by")
  Long draftedBy;

  @Column(name = "drafted_at")
  Instant draftedAt;

  @Column(name = "change_reason")
  String changeReason;

  boolean reviewed;

  @Column(name = "signed_at")
  Instant signedAt;

  @Column(name = "signed_by")
  Long signedBy;

  boolean cosigned;

  @Column(name = "screening_id")
  Long screeningId;

  /** Days on which some pad set is replaced, comma between; fixed with the packs. */
  @Column(name = "pad_changes", columnDefinition = "text")
  String padChanges;

  Integer sessions;

  @Column(name = "last_session_on")
  LocalDate lastSessionOn;

  @Column(name = "ends_before")
  LocalDate endsBefore;

  @Column(name = "due_on")
  LocalDate dueOn;

  @Column(name = "sessions_lost")
  Integer sessionsLost;

  @Column(name = "next_appointment_on")
  LocalDate nextAppointmentOn;

  @OneToMany(mappedBy = "version", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("place")
  @BatchSize(size = 50)
  List<PlacementRow> placements = new ArrayList<>();

  @OneToMany(mappedBy = "version", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("place")
  @BatchSize(size = 50)
  List<PadLineRow> pads = new ArrayList<>();

  @OneToMany(mappedBy = "version", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("padCode, onDay")
  @BatchSize(size = 50)
  List<PackRow> packs = new ArrayList<>();
}
