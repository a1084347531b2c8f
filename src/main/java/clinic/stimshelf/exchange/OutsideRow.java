package clinic.stimshelf.exchange;

import java.time.Instant;

/**
 * An appointment as another system tells it.
 *
 * @param key that system's own; the same one is the same appointment
 * @param chart the chart number, or words of which one is it
 * @param startsAt {@code null} where it cannot be read
 * @param minutes {@code null} where it cannot be read
 * @param therapist short name of a staff member, or {@code null} for whoever stands there
 * @param room name of a room, or {@code null}
 * @param channels of the treatment, or {@code null} where nothing is said
 * @param fault why it cannot be read, or {@code null}
 */
record OutsideRow(
    String key,
    String chart,
    Instant startsAt,
    Integer minutes,
    String therapist,
    String room,
    Integer channels,
    boolean cancelled,
    String fault) {

  static OutsideRow unreadable(String key, String chart, String fault) {
    return new OutsideRow(key, chart, null, null, null, null, null, false, fault);
  }
}
