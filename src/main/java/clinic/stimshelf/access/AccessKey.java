package clinic.stimshelf.access;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.HashSet;
import java.util.Set;

/** What a script signs in with: for one staff member, one role and some of their locations. */
@Entity
@Table(name = "access_key")
class AccessKey {
  @Id
  @SequenceGenerator(name = "access_key_seq", sequenceName = "access_key_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "access_key_seq")
  Long id;

  @Version int version;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "staff_id")
  StaffMember staff;

  String name;
  String role;

  @Column(name = "key_hash")
  String keyHash;

  @Column(name = "made_at")
  Instant madeAt;

  @Column(name = "last_used_at")
  Instant lastUsedAt;

  @Column(name = "revoked_at")
  Instant revokedAt;

  @ElementCollection(fetch = FetchType.LAZY)
  @CollectionTable(name = "access_key_location", joinColumns = @JoinColumn(name = "access_key_id"))
  @Column(name = "location_id")
  Set<Long> locationIds = new HashSet<>();
}
