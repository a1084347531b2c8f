package clinic.stimshelf.audit;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;

/** A line of the trail. Written once; nothing in the program changes or deletes one. */
@Entity
@Immutable
@Table(name = "audit_entry")
class AuditEntry {
  @Id
  @SequenceGenerator(
      name = "audit_entry_seq",
      sequenceName = "audit_entry_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "audit_entry_seq")
  Long id;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "actor_name")
  String actorName;

  @Column(name = "subject_kind")
  String subjectKind;

  @Column(name = "subject_id")
  String subjectId;

  @Column(name = "location_id")
  Long locationId;

  String action;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "before_json", columnDefinition = "text")
  String beforeJson;

  @Column(name = "after_json", columnDefinition = "text")
  String afterJson;
}
