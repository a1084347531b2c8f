package clinic.stimshelf.access;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/**
 * A code that works once: to set a password or, without a staff member, to make the first account.
 */
@Entity
@Table(name = "one_time_code")
class OneTimeCode {
  @Id
  @SequenceGenerator(
      name = "one_time_code_seq",
      sequenceName = "one_time_code_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "one_time_code_seq")
  Long id;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "code_hash")
  String codeHash;

  @Column(name = "made_at")
  Instant madeAt;

  @Column(name = "expires_at")
  Instant expiresAt;

  @Column(name = "used_at")
  Instant usedAt;
}
