package clinic.stimshelf.remind;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;

/** An address that is not written to any more. */
@Entity
@Table(name = "contact_stop")
class ContactStop {
  @Id
  @SequenceGenerator(
      name = "contact_stop_seq",
      sequenceName = "contact_stop_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "contact_stop_seq")
  Long id;

  @Version int version;

  @Column(name = "patient_id")
  Long patientId;

  @Enumerated(EnumType.STRING)
  Route route;

  String address;

  @Enumerated(EnumType.STRING)
  StopReason reason;

  String words;

  @Column(name = "stopped_at")
  Instant stoppedAt;
}
