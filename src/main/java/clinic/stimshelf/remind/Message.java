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
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** What goes to a patient on a day: one message, whatever it tells. */
@Entity
@Table(name = "message")
class Message {
  /** After so long it is tried again, then after the next; the last one repeats. */
  private static final List<Duration> PAUSES =
      List.of(
          Duration.ofMinutes(1),
          Duration.ofMinutes(5),
          Duration.ofMinutes(30),
          Duration.ofHours(2));

  @Id
  @SequenceGenerator(name = "message_seq", sequenceName = "message_seq", allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "message_seq")
  Long id;

  @Version int version;

  @Column(name = "location_id")
  Long locationId;

  @Column(name = "patient_id")
  Long patientId;

  @Enumerated(EnumType.STRING)
  Route route;

  @Enumerated(EnumType.STRING)
  MessageState state;

  @Column(name = "on_day")
  LocalDate onDay;

  /** Its day while it stands; of two for one patient and day, the database refuses one. */
  @Column(name = "standing_on")
  LocalDate standingOn;

  @Column(name = "next_at")
  Instant nextAt;

  @Column(name = "claimed_until")
  Instant claimedUntil;

  int tries;

  /** The same at every try, so that a repeated mail can be known as one. */
  @Column(name = "mail_id")
  String mailId;

  @Column(name = "sent_to")
  String sentTo;

  @Column(name = "sent_at")
  Instant sentAt;

  String trouble;

  void on(LocalDate day) {
    onDay = day;
    standingOn = day;
  }

  void claimed(Instant until) {
    state = MessageState.CLAIMED;
    claimedUntil = until;
    tries++;
  }

  void again(Instant at, String why) {
    state = MessageState.WAITING;
    claimedUntil = null;
    nextAt = at;
    trouble = cut(why);
  }

  void sent(String to, Instant at) {
    state = MessageState.SENT;
    claimedUntil = null;
    sentTo = to;
    sentAt = at;
    trouble = null;
  }

  void unsent() {
    state = MessageState.UNSENT;
    claimedUntil = null;
  }

  void failed(String why) {
    state = MessageState.FAILED;
    claimedUntil = null;
    standingOn = null;
    trouble = cut(why);
  }

  void cancelled() {
    state = MessageState.CANCELLED;
    claimedUntil = null;
    standingOn = null;
  }

  /** How long to wait after the last try. */
  Duration pause() {
    return PAUSES.get(Math.min(Math.max(tries, 1), PAUSES.size()) - 1);
  }

  static String cut(String words) {
    return words == null || words.length() <= 300 ? words : words.substring(0, 299) + "…";
  }
}
