package clinic.stimshelf.access;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.Column;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Somebody who works at the clinic, with or without an account. */
@Entity
@Table(name = "staff")
class StaffMember {
  @Id
  @SequenceGenerator(name = "staff_seq", sequenceName = "staff_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "staff_seq")
  Long id;

  @Version int version;
  String ref;
  String name;
  String initials;

  @Enumerated(EnumType.STRING)
  @Column(length = 32)
  Credential credential;

  @Column(name = "license_number")
  String licenseNumber;

  @Column(name = "license_ends_on")
  LocalDate licenseEndsOn;

  String role;
  String username;

  @Column(name = "password_hash")
  String passwordHash;

  @Column(name = "password_set_at")
  Instant passwordSetAt;

  boolean active;

  @ElementCollection(fetch = FetchType.LAZY)
  @CollectionTable(name = "staff_location", joinColumns = @JoinColumn(name = "staff_id"))
  @Column(name = "location_id")
  Set<Long> locationIds = new HashSet<>();

  StaffView view() {
    return new StaffView(
        id,
        ref,
        name,
        initials,
        credential,
        licenseNumber,
        licenseEndsOn,
        role,
        username,
        passwordHash != null,
        active,
        sorted(locationIds),
        version);
  }

  static List<Long> sorted(Set<Long> ids) {
    return ids.stream().sorted().toList();
  }
}
