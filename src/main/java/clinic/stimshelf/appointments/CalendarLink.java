package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;

/** A secret address under which somebody's appointments are read. */
@Entity
@Table(name = "calendar_link")
class CalendarLink {
  @Id
  @SequenceGenerator(
      name = "calendar_link_seq",
      sequenceName = "calendar_link_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "calendar_link_seq")
  Long id;

  @Version int version;

  @Column(name = "staff_id")
  Long staffId;

  /** What reads it, such as "my phone". */
  String words;

  @Column(name = "secret_hash")
  String secretHash;

  @Column(name = "made_at")
  Instant madeAt;

  @Column(name = "last_read_at")
  Instant lastReadAt;

  @Column(name = "revoked_at")
  Instant revokedAt;
}
