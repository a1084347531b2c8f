package clinic.stimshelf.program;

import jakarta.persistence.CascadeType;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.OneToMany;
import jakarta.persistence.OrderBy;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hibernate.annotations.BatchSize;

/** A patient's home program: its versions, and what happened to it as a whole. */
@Entity
@Table(name = "program")
class Program {
  @Id
  @SequenceGenerator(name = "program_seq", sequenceName = "program_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_seq")
  Long id;

  @Version int version;

  String ref;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "therapist_id")
  Long therapistId;

  @Enumerated(EnumType.STRING)
  ProgramState state;

  @Column(name = "latest_number")
  int latestNumber;

  @Column(name = "signed_number")
  Integer signedNumber;

  @Column(name = "made_at")
  Instant madeAt;

  @Column(name = "first_session_at")
  Instant firstSessionAt;

  @Column(name = "first_session_by")
  Long firstSessionBy;

  @Column(name = "first_session_words")
  String firstSessionWords;

  @Column(name = "stopped_at")
  Instant stoppedAt;

  @Column(name = "stop_reason")
  String stopReason;

  /** Whether the patient had given it up; what ended by decision had not. */
  boolean abandoned;

  @OneToMany(mappedBy = "program", cascade = CascadeType.PERSIST)
  @OrderBy("number")
  @BatchSize(size = 50)
  List<ProgramVersion> versions = new ArrayList<>();

  @OneToMany(mappedBy = "program", cascade = CascadeType.ALL, orphanRemoval = true)
  @OrderBy("fromDay")
  @BatchSize(size = 50)
  List<Pause> pauses = new ArrayList<>();

  @OneToMany(mappedBy = "program", cascade = CascadeType.PERSIST)
  @OrderBy("confirmedAt")
  @BatchSize(size = 50)
  List<SettingConfirmed> settings = new ArrayList<>();

  @OneToMany(mappedBy = "program", cascade = CascadeType.PERSIST)
  @OrderBy("heldAt")
  @BatchSize(size = 50)
  List<Hold> holds = new ArrayList<>();

  /** Why nobody may go on before a new screening, or {@code null}. */
  Hold hold() {
    return holds.stream().filter(Hold::stands).findFirst().orElse(null);
  }

  /** The version with that number; every program has its latest. */
  ProgramVersion version(int number) {
    return versions.stream().filter(one -> one.number == number).findFirst().orElseThrow();
  }

  ProgramVersion latest() {
    return version(latestNumber);
  }

  /** The version in force, or {@code null} before the first signature. */
  ProgramVersion signed() {
    return signedNumber == null ? null : version(signedNumber);
  }

  /** The state as it is on a day: a signed program is paused while a pause covers the day. */
  ProgramState stateOn(LocalDate today) {
    if (state == ProgramState.SIGNED && hold() != null) {
      return ProgramState.HELD;
    }
    boolean pausing = pauses.stream().anyMatch(pause -> pause.covers(today));
    return state == ProgramState.SIGNED && pausing ? ProgramState.PAUSED : state;
  }

  boolean settingConfirmed() {
    return signedNumber != null
        && settings.stream().anyMatch(one -> one.versionNumber == signedNumber);
  }
}
