package clinic.stimshelf.location;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** A room of a location, with the number of people who can be treated in it at once. */
@Entity
@Table(name = "room")
class Room {
  @Id
  @SequenceGenerator(name = "room_seq", sequenceName = "room_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "room_seq")
  Long id;

  @Column(name = "location_id")
  Long locationId;

  String name;
  int capacity;
  boolean active = true;
}
