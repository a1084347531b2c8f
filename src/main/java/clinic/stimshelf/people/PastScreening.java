package clinic.stimshelf.people;

import java.time.Instant;
import java.util.Map;

/**
 * A screening that stands on paper or in another program: what was answered with yes, and each
 * precaution's reason. Everything else was answered with no there.
 *
 * @param ref the file's own name for it; a known one changes nothing
 * @param screenedBy number of the staff member
 * @param yes keys of the questions answered with yes, each with the reason a licensed PT accepted
 *     it for; a blank reason leaves it open
 */
public record PastScreening(
    String ref,
    Long patientId,
    String muscle,
    Side side,
    Long screenedBy,
    Instant screenedAt,
    Map<String, String> yes) {}
