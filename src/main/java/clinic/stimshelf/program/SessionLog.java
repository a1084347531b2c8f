package clinic.stimshelf.program;

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
import java.time.Instant;
import java.time.LocalDate;

/** What is known of one home session. */
@Entity
@Table(name = "session_log")
class SessionLog {
  @Id
  @SequenceGenerator(
      name = "session_log_seq",
      sequenceName = "session_log_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "session_log_seq")
  Long id;

  @Version int version;

  String ref;

  @Column(name = "program_id")
  Long programId;

  @Column(name = "on_day")
  LocalDate onDay;

  int nth;

  /** The number again while the entry stands, {@code null} once it is voided. */
  @Column(name = "standing_nth")
  Integer standingNth;

  @Enumerated(EnumType.STRING)
  Outcome outcome;

  @Enumerated(EnumType.STRING)
  LogSource source;

  Integer contractions;

  String intensity;

  @Column(name = "pads_words")
  String padsWords;

  @Column(name = "skin_words")
  String skinWords;

  @Column(name = "skin_trouble")
  boolean skinTrouble;

  @Column(name = "pads_trouble")
  boolean padsTrouble;

  String note;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "voided_at")
  Instant voidedAt;

  @Column(name = "void_reason")
  String voidReason;
}
