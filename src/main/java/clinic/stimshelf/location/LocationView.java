package clinic.stimshelf.location;

import java.time.ZoneId;

/** A location as the other rooms see it. */
public record LocationView(
    Long id,
    String code,
    String name,
    ZoneId zone,
    String phone,
    String address,
    String afterHoursWords,
    String emergencyWords) {}
