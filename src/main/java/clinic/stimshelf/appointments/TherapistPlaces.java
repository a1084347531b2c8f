package clinic.stimshelf.appointments;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import jakarta.persistence.Version;

/** How many patients a therapist sees at once. */
@Entity
@Table(name = "therapist_places")
class TherapistPlaces {
  @Id
  @SequenceGenerator(
      name = "therapist_places_seq",
      sequenceName = "therapist_places_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "therapist_places_seq")
  Long id;

  @Version int version;

  @Column(name = "staff_id")
  Long staffId;

  @Column(name = "at_once")
  int atOnce;
}
