package clinic.stimshelf.remind;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Locale;

/**
 * A reminder as people and scripts see it.
 *
 * @param kind the step's key in the ladder
 * @param channel how it reaches the patient, or who sees to it
 * @param day on which it leaves or is to be done
 * @param about the day it is about
 * @param why what stands behind its state, or {@code null}
 * @param tries how often it was put off
 */
public record ReminderView(
    String id,
    String kind,
    Route channel,
    LocalDate day,
    State state,
    String patientId,
    String loanId,
    String appointmentId,
    LocalDate about,
    Instant dueAt,
    String words,
    String why,
    int tries,
    Instant endedAt,
    String endedBy) {

  /** Where it stands. */
  public enum State {
    PLANNED,
    DUE,
    SENT,
    FAILED,
    DONE,
    CANCELLED;

    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws IllegalArgumentException naming the states there are
     */
    static State of(String word) {
      for (State state : values()) {
        if (state.word().equals(word)) {
          return state;
        }
      }
      throw new IllegalArgumentException(
          "“" + word + "” is no state. Possible: planned, due, sent, failed, done, cancelled.");
    }
  }

  static ReminderView of(Reminder row, Instant now) {
    State state =
        switch (row.state) {
          case WAITING -> row.dueAt.isAfter(now) ? State.PLANNED : State.DUE;
          case SENT -> State.SENT;
          case FAILED -> State.FAILED;
          case DONE -> State.DONE;
          case CANCELLED -> State.CANCELLED;
        };
    return new ReminderView(
        String.valueOf(row.id),
        row.kind,
        row.route,
        row.onDay,
        state,
        String.valueOf(row.patientId),
        row.loanId == null ? null : String.valueOf(row.loanId),
        row.appointmentId == null ? null : String.valueOf(row.appointmentId),
        row.aboutOn,
        row.dueAt,
        row.words,
        row.why,
        row.tries,
        row.endedAt,
        row.endedBy);
  }
}
