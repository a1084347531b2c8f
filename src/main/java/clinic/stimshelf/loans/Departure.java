package clinic.stimshelf.loans;

import java.time.LocalDate;
import java.util.List;

/**
 * An open request with the kit that would go if it went now.
 *
 * @param treats what is treated, in words
 * @param unitTag {@code null} if no suitable kit is ready that another request doesn't get first
 * @param missing what stands against it; the check out may find more about the person
 */
public record Departure(
    Long requestId,
    Long programId,
    Long patientId,
    LocalDate neededFrom,
    LocalDate dueOn,
    String treats,
    String unitTag,
    String unitWhy,
    List<String> missing) {}
