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

/** A signed program that waits for a unit. */
@Entity
@Table(name = "loan_request")
class LoanRequest {
  @Id
  @SequenceGenerator(
      name = "loan_request_seq",
      sequenceName = "loan_request_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "loan_request_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "program_id")
  Long programId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "location_id")
  Long locationId;

  int channels;

  @Column(name = "needed_from")
  LocalDate neededFrom;

  /** The therapist's: 1 is most urgent, 3 can wait. */
  int priority;

  @Column(name = "waiting_since")
  Instant waitingSince;

  @Enumerated(EnumType.STRING)
  RequestState state;

  /** The kit set aside for it, if any. */
  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "agreement_version")
  String agreementVersion;

  @Column(name = "end_reason")
  String endReason;

  @Column(name = "open_program_id")
  Long openProgramId;

  boolean open() {
    return state == RequestState.OPEN || state == RequestState.RESERVED;
  }

  void reserved(Long unit) {
    unitId = unit;
    state = RequestState.RESERVED;
  }

  void unreserved() {
    unitId = null;
    state = RequestState.OPEN;
  }

  void filled() {
    state = RequestState.FILLED;
    openProgramId = null;
  }

  void withdrawn(String reason) {
    state = RequestState.WITHDRAWN;
    openProgramId = null;
    unitId = null;
    endReason = reason;
  }
}
