package clinic.stimshelf.appointments;

import clinic.stimshelf.web.Refusals;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;

/**
 * A run of appointments as wanted.
 *
 * @param visits how many, 1 to 60
 * @param perWeek at most so many from Monday to Sunday, 1 to 7
 * @param hoursApart at least so many from one start to the next, 0 to 336
 * @param from first day that may be
 * @param at the time of day the patient wishes
 * @param minutes how long each lasts, 5 to 480
 * @param preferredId the therapist most of them should be with, or {@code null}
 * @param roomId or {@code null} for no room in particular
 * @param channels that each treatment needs; 0 for none
 */
record RunWish(
    Long locationId,
    Long patientId,
    int visits,
    int perWeek,
    int hoursApart,
    LocalDate from,
    LocalTime at,
    int minutes,
    Long preferredId,
    Long roomId,
    int channels,
    String note) {
  static final int MOST_VISITS = 60;
  static final int MOST_A_WEEK = 7;
  static final int MOST_HOURS_APART = 336;

  /**
   * @throws clinic.stimshelf.web.Refusal with everything that is out of range
   */
  void check(LocalDate today) {
    Refusals refusals = new Refusals();
    within(refusals, "visits", "Appointments", visits, 1, MOST_VISITS);
    within(refusals, "perWeek", "Appointments a week", perWeek, 1, MOST_A_WEEK);
    within(refusals, "hoursApart", "Hours apart", hoursApart, 0, MOST_HOURS_APART);
    within(refusals, "minutes", "Minutes", minutes, 5, 480);
    within(refusals, "channels", "Channels", channels, 0, BookingRules.MOST_CHANNELS);
    if (from == null) {
      refusals.add("from", "From which day on?");
    } else if (from.isBefore(today)) {
      refusals.add("from", "The first day lies before today.", "Begin from today on.");
    } else if (from.isAfter(today.plusYears(1))) {
      refusals.add("from", "The first day lies more than a year ahead.");
    }
    if (at == null) {
      refusals.add("at", "At what time would the patient like to come?");
    }
    refusals.throwIfAny();
  }

  private static void within(
      Refusals refusals, String field, String what, int number, int least, int most) {
    if (number < least || number > most) {
      refusals.add(field, what + ": a whole number from " + least + " to " + most + ".");
    }
  }

  /** Tells two wishes apart, so that what is booked is what was proposed. */
  String mark() {
    return Integer.toHexString(hashCode());
  }

  /** One of its appointments. */
  NewAppointment visit(Instant start, Long therapistId) {
    return new NewAppointment(
            locationId,
            patientId,
            therapistId,
            roomId,
            null,
            start,
            start.plus(Duration.ofMinutes(minutes)),
            null,
            null,
            channels,
            note)
        .complete();
  }

  /** The last day that is looked at: as long as it must take and two weeks more. */
  LocalDate horizon() {
    int weeks = (visits + perWeek - 1) / perWeek;
    return from.plusDays(7L * weeks + 14);
  }
}
