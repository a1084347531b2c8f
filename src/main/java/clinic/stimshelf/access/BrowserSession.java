package clinic.stimshelf.access;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Duration;
import java.time.Instant;

/** A browser somebody is signed in with. The cookie holds the identifier; here is only its hash. */
@Entity
@Table(name = "browser_session")
class BrowserSession {
  @Id
  @SequenceGenerator(
      name = "browser_session_seq",
      sequenceName = "browser_session_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "browser_session_seq")
  Long id;

  @Column(name = "token_hash")
  String tokenHash;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "staff_id")
  StaffMember staff;

  @Column(name = "location_id")
  Long locationId;

  boolean privacy;

  @Column(name = "started_at")
  Instant startedAt;

  @Column(name = "seen_at")
  Instant seenAt;

  @Column(name = "ended_at")
  Instant endedAt;

  boolean open(Instant now, Duration idle, Duration absolute) {
    return endedAt == null
        && staff.active
        && now.isBefore(seenAt.plus(idle))
        && now.isBefore(startedAt.plus(absolute));
  }
}
