package clinic.stimshelf.web;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** The answer to a call with a key, kept so that a repeated call gets it again. */
@Entity
@Table(name = "idempotent_call")
class KeptAnswer {
  @Id
  @SequenceGenerator(
      name = "idempotent_call_seq",
      sequenceName = "idempotent_call_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "idempotent_call_seq")
  Long id;

  String account;

  @Column(name = "call_key")
  String callKey;

  String route;

  @Column(name = "body_hash")
  String bodyHash;

  int status;

  @Column(columnDefinition = "text")
  String answer;

  @Column(name = "made_at")
  Instant madeAt;
}
