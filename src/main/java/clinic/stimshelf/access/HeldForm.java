package clinic.stimshelf.access;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;

/** A form typed into an ended session, sealed with a key that only its browser holds. */
@Entity
@Table(name = "held_form")
class HeldForm {
  @Id
  @SequenceGenerator(name = "held_form_seq", sequenceName = "held_form_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "held_form_seq")
  Long id;

  @Column(name = "token_hash")
  String tokenHash;

  @Column(columnDefinition = "text")
  String sealed;

  @Column(name = "held_at")
  Instant heldAt;
}
