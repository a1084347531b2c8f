package clinic.stimshelf.access;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** How often signing in failed in a row for an account or from an address. */
@Entity
@Table(name = "failed_sign_in")
class FailedSignIn {
  @Id
  @SequenceGenerator(
      name = "failed_sign_in_seq",
      sequenceName = "failed_sign_in_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "failed_sign_in_seq")
  Long id;

  String subject;
  int failures;

  @Column(name = "last_failed_at")
  Instant lastFailedAt;

  @Column(name = "blocked_until")
  Instant blockedUntil;
}
