package clinic.stimshelf.people;

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
import java.text.Normalizer;
import java.time.LocalDate;
import java.util.Locale;

/** A person the clinic treats. */
@Entity
@Table(name = "patient")
class Patient {
  @Id
  @SequenceGenerator(name = "patient_seq", sequenceName = "patient_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "patient_seq")
  Long id;

  @Version int version;
  String ref;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "chart_number")
  String chartNumber;

  /** The chart number in small letters: two that differ in case only are one. */
  @Column(name = "chart_search")
  String chartSearch;

  String name;

  /** A blank, then the name in small letters without accents: each word begins after a blank. */
  @Column(name = "name_search")
  String nameSearch;

  @Column(name = "birth_date")
  LocalDate birthDate;

  @Column(name = "guardian_name")
  String guardianName;

  @Column(name = "guardian_relation")
  String guardianRelation;

  String language;
  boolean interpreter;

  @Column(name = "reach_by")
  @Enumerated(EnumType.STRING)
  ReachBy reachBy;

  String phone;
  String email;
  String address;

  @Column(name = "reminders_allowed")
  boolean remindersAllowed;

  @Column(name = "died_on")
  LocalDate diedOn;

  static String forSearch(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFD)
        .replaceAll("\\p{M}+", "")
        .toLowerCase(Locale.ROOT)
        .strip()
        .replaceAll("\\s+", " ");
  }

  PatientView view() {
    return new PatientView(
        id,
        ref,
        chartNumber,
        name,
        birthDate,
        guardianName,
        guardianRelation,
        language,
        interpreter,
        reachBy,
        phone,
        email,
        address,
        remindersAllowed,
        diedOn,
        locationId,
        version);
  }
}
