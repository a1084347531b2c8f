package clinic.stimshelf.remind;

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

/** What a link given to a patient opens; only its hash is kept. */
@Entity
@Table(name = "patient_token")
class PatientToken {
  @Id
  @SequenceGenerator(
      name = "patient_token_seq",
      sequenceName = "patient_token_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "patient_token_seq")
  Long id;

  @Version int version;

  String hash;

  @Enumerated(EnumType.STRING)
  Purpose purpose;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "loan_id")
  Long loanId;

  /** What a way out stops: this route to this address. */
  @Enumerated(EnumType.STRING)
  Route route;

  String address;

  @Column(name = "made_at")
  Instant madeAt;

  @Column(name = "ends_at")
  Instant endsAt;

  @Column(name = "revoked_at")
  Instant revokedAt;

  /** What a token is for. */
  enum Purpose {
    PAGE,
    STOP
  }
}
