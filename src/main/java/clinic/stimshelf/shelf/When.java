package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;

/** Reads from a form when something happened. */
final class When {
  private When() {}

  static Happened of(Form form, ZoneId zone, EventTimes times) {
    LocalDateTime at = form.optionalDayAndTime("happenedAt", "The time it happened");
    String late = form.optionalText("lateReason", "The reason", 500);
    form.throwIfWrong();
    Refusals refusals = new Refusals();
    Instant instant = at == null ? null : at.atZone(zone).toInstant();
    Happened happened = times.of(instant, late, zone, refusals);
    if (refusals.any()) {
      throw new Refusal(refusals.reasons());
    }
    return happened;
  }
}
