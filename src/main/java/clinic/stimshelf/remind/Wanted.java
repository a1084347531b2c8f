package clinic.stimshelf.remind;

import java.time.Instant;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/** What the ladder wants told or done, as of now. */
record Wanted(
    String occasion,
    Long patientId,
    Long locationId,
    @Nullable Long loanId,
    @Nullable Long appointmentId,
    String kind,
    String step,
    Route route,
    LocalDate aboutOn,
    LocalDate onDay,
    Instant dueAt,
    @Nullable Instant usefulUntil,
    String words) {}
