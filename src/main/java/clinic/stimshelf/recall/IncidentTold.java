package clinic.stimshelf.recall;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;

/** Somebody was told of an incident, or it was decided not to, and why. Written once. */
@Entity
@Immutable
@Table(name = "incident_told")
class IncidentTold {
  @Id
  @SequenceGenerator(
      name = "incident_told_seq",
      sequenceName = "incident_told_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "incident_told_seq")
  Long id;

  @Column(name = "incident_id")
  Long incidentId;

  @Enumerated(EnumType.STRING)
  Whom whom;

  boolean told;

  @Column(name = "spoke_with")
  String spokeWith;

  String reference;
  String words;

  @Column(name = "happened_at")
  Instant happenedAt;

  @Column(name = "recorded_at")
  Instant recordedAt;

  @Column(name = "late_reason")
  String lateReason;

  @Column(name = "by_name")
  String byName;

  IncidentView.Told view() {
    return new IncidentView.Told(
        whom, told, spokeWith, reference, words, happenedAt, recordedAt, lateReason, byName);
  }
}
