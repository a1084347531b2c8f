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
import java.time.LocalDate;

/** One thing a patient is told, or the clinic sees to, on a day. */
@Entity
@Table(name = "reminder")
class Reminder {
  @Id
  @SequenceGenerator(name = "reminder_seq", sequenceName = "reminder_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "reminder_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "patient_id")
  Long patientId;

  @Column(name = "loan_id")
  Long loanId;

  @Column(name = "appointment_id")
  Long appointmentId;

  /** Subject, kind, channel and the day it is about. Unique, so that nothing is told twice. */
  String occasion;

  String kind;

  /** The channel of the ladder: message, call, letter, task. */
  String step;

  /** What became of it for this patient. */
  @Enumerated(EnumType.STRING)
  Route route;

  @Enumerated(EnumType.STRING)
  ReminderState state;

  @Column(name = "about_on")
  LocalDate aboutOn;

  @Column(name = "on_day")
  LocalDate onDay;

  @Column(name = "due_at")
  Instant dueAt;

  /** Past this it would say something wrong; {@code null} if never. */
  @Column(name = "useful_until")
  Instant usefulUntil;

  @Column(name = "message_id")
  Long messageId;

  String words;
  String why;

  /** How often it was put off: by a call nobody answered, or by another message of the day. */
  int tries;

  @Column(name = "ended_at")
  Instant endedAt;

  @Column(name = "ended_by")
  String endedBy;

  void ends(ReminderState how, Instant at, String by, String reason) {
    state = how;
    endedAt = at;
    endedBy = by;
    if (reason != null) {
      why = Message.cut(reason);
    }
  }

  void putOff(LocalDate day, Instant at) {
    tries++;
    onDay = day;
    dueAt = at;
  }
}
