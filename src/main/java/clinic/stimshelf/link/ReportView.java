package clinic.stimshelf.link;

import java.time.Instant;

/**
 * A report as the clinic's people see it.
 *
 * @param openMinutes minutes of opening hours since it was made
 * @param escalated whether it waits too long, so that everybody at the location sees it
 */
record ReportView(
    Long id,
    Long locationId,
    Long patientId,
    Long loanId,
    Long programId,
    ReportKind kind,
    Instant at,
    boolean open,
    long openMinutes,
    boolean escalated,
    Instant answeredAt,
    String answeredBy,
    String answer) {}
