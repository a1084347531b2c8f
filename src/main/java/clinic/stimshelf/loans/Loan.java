package clinic.stimshelf.loans;

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

/** A unit at a patient's home, from check out to check in. */
@Entity
@Table(name = "loan")
class Loan {
  @Id
  @SequenceGenerator(name = "loan_seq", sequenceName = "loan_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "loan_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "program_id")
  Long programId;

  /** The signed version the loan follows now. */
  @Column(name = "program_version")
  int programVersion;

  @Column(name = "location_id")
  Long locationId;

  @Enumerated(EnumType.STRING)
  LoanState state;

  @Column(name = "checked_out_at")
  Instant checkedOutAt;

  @Column(name = "due_on")
  LocalDate dueOn;

  @Column(name = "due_kind")
  String dueKind;

  /** A day booked for the safety test that falls inside the loan. */
  @Column(name = "bring_in_on")
  LocalDate bringInOn;

  @Column(name = "returned_at")
  Instant returnedAt;

  /** When a unit that never came back was given up. */
  @Column(name = "written_off_at")
  Instant writtenOffAt;

  @Column(name = "returned_location_id")
  Long returnedLocationId;

  String identifiers;

  @Column(name = "agreement_version")
  String agreementVersion;

  @Column(name = "use_counter_out")
  Integer useCounterOut;

  @Column(name = "use_counter_in")
  Integer useCounterIn;

  String note;

  @Column(name = "open_program_id")
  Long openProgramId;

  /** Whether the unit is still with the patient, known or not. */
  boolean open() {
    return state.open();
  }

  /** When it ended, or {@code null} while it is open; a void one never took place. */
  Instant endedAt() {
    return state == LoanState.LOST
        ? writtenOffAt
        : state == LoanState.VOID ? checkedOutAt : returnedAt;
  }

  void returned(Instant at, Long location) {
    state = LoanState.RETURNED;
    returnedAt = at;
    returnedLocationId = location;
    openProgramId = null;
  }

  void lost(Instant at) {
    state = LoanState.LOST;
    writtenOffAt = at;
    openProgramId = null;
  }

  void voided() {
    state = LoanState.VOID;
    openProgramId = null;
  }
}
