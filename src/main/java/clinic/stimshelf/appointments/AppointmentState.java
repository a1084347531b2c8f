package clinic.stimshelf.appointments;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** Where an appointment stands. */
public enum AppointmentState {
  BOOKED("booked"),
  ARRIVED("arrived"),
  DONE("done"),
  PARTIAL("partly done"),
  NOT_DONE("not done"),
  NO_SHOW("no-show"),
  CANCELLED("cancelled");

  /** Those that take up the time of patient, room and unit. */
  static final Set<AppointmentState> TAKING = EnumSet.of(BOOKED, ARRIVED, DONE, PARTIAL, NOT_DONE);

  /** Those of which something is still expected. */
  static final Set<AppointmentState> OPEN = EnumSet.of(BOOKED, ARRIVED);

  /** Those on which the patient comes or came. */
  static final Set<AppointmentState> STANDING = EnumSet.of(BOOKED, ARRIVED, DONE, PARTIAL);

  /** Those on which the patient came, treated or not. */
  static final Set<AppointmentState> CAME = EnumSet.of(ARRIVED, DONE, PARTIAL, NOT_DONE);

  private final String words;

  AppointmentState(String words) {
    this.words = words;
  }

  /** As scripts spell it: {@code no-show}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  /** Whether nothing more is expected of it. */
  public boolean over() {
    return this != BOOKED && this != ARRIVED;
  }

  /**
   * @throws IllegalArgumentException naming the states there are
   */
  @JsonCreator
  public static AppointmentState of(String word) {
    for (AppointmentState state : values()) {
      if (state.word().equals(word)) {
        return state;
      }
    }
    throw new IllegalArgumentException(
        "“"
            + word
            + "” is no state. Possible: booked, arrived, done, partial, not-done, no-show,"
            + " cancelled.");
  }
}
