package clinic.stimshelf.pads;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.OffsetDateTime;

/** Reads what the calls of this room have in common. */
@ApplicationScoped
class Wire {
  @Inject EventTimes times;
  @Inject Locations locations;

  /** When an event took place, in the words of a call. */
  Happened happened(OffsetDateTime happenedAt, String lateReason, Long locationId) {
    Refusals refusals = new Refusals();
    Instant at = happenedAt == null ? null : happenedAt.toInstant();
    Happened happened = times.of(at, lateReason, locations.zone(locationId), refusals);
    refusals.throwIfAny();
    return happened;
  }

  static <T> T body(T body) {
    if (body == null) {
      throw new Malformed("body", "The call has no body.");
    }
    return body;
  }

  static <T> T needed(String field, T value) {
    if (value == null) {
      throw new Malformed(field, "“" + field + "” is missing.");
    }
    return value;
  }

  /** A number in a path: what is none names nothing. */
  static Long id(String text) {
    try {
      return Long.valueOf(text);
    } catch (NumberFormatException notANumber) {
      throw new NotFound("There is nothing with the number “" + text + "”.");
    }
  }

  /** A number in a body or query. */
  static Long number(String field, String text) {
    if (text == null || text.isBlank()) {
      return null;
    }
    try {
      return Long.valueOf(text.strip());
    } catch (NumberFormatException notANumber) {
      throw new Malformed(field, "“" + text + "” is not a number that a call answered.");
    }
  }
}
