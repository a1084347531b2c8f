package clinic.stimshelf.location;

import java.time.LocalTime;

/** A stretch of one day during which a location is open. */
public record DayHours(LocalTime opens, LocalTime closes) {}
