package clinic.stimshelf.appointments;

import java.time.Instant;

/** A calendar link as it is listed: never the address itself. */
record CalendarLinkView(
    Long id, String words, Instant madeAt, Instant lastReadAt, Instant revokedAt) {}
