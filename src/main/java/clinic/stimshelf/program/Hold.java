package clinic.stimshelf.program;

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
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/** The program stands still until the patient was screened again and a PT let it go on. */
@Entity
@Table(name = "program_hold")
class Hold {
  @Id
  @SequenceGenerator(
      name = "program_hold_seq",
      sequenceName = "program_hold_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_hold_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "program_id")
  Program program;

  /** The program while the hold stands: the database allows one at a time. */
  @Column(name = "standing_program_id")
  Long standingProgramId;

  @Enumerated(EnumType.STRING)
  HoldReason reason;

  String words;

  @Column(name = "held_at")
  Instant heldAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "held_by")
  Long heldBy;

  @Column(name = "released_at")
  Instant releasedAt;

  @Column(name = "released_by")
  Long releasedBy;

  @Column(name = "screening_id")
  Long screeningId;

  @Column(name = "release_words")
  String releaseWords;

  boolean stands() {
    return standingProgramId != null;
  }

  /** Whether no session is planned on the day. What was done that morning counts as extra. */
  boolean silences(LocalDate day, ZoneId zone) {
    return stands() && !day.isBefore(LocalDate.ofInstant(heldAt, zone));
  }

  ProgramView.HoldView view() {
    return new ProgramView.HoldView(reason.word(), reason.words(), words, heldAt);
  }

  String say() {
    return reason.words() + (words == null ? "" : ": " + words);
  }
}
