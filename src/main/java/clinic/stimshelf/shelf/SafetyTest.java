package clinic.stimshelf.shelf;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.LocalDate;

/** The dated electrical test. */
@Entity
@Table(name = "safety_test")
class SafetyTest {
  @Id
  @SequenceGenerator(
      name = "safety_test_seq",
      sequenceName = "safety_test_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "safety_test_seq")
  Long id;

  String ref;

  @Column(name = "unit_id")
  Long unitId;

  @Column(name = "tested_on")
  LocalDate testedOn;

  boolean passed;

  @Column(name = "next_due_on")
  LocalDate nextDueOn;

  String tester;
  String certificate;
  String note;
}
