package clinic.stimshelf.pads;

import java.time.Instant;
import java.time.LocalDate;

/**
 * Packs that came or went in the past, as a file says.
 *
 * @param ref name of the row
 * @param code the pad type
 * @param lot the maker's lot number; {@code null} for what leaves and whose lot nobody knows: the
 *     first to expire is taken
 * @param expiresOn needed where the lot is new
 * @param udi the scanned code as it was read, or {@code null}
 * @param packs 1 or more; the reason says whether they came or went
 * @param drawerReason for drawer takes
 * @param orderedOn for deliveries: the day they were ordered, or {@code null}
 * @param at when it took place
 */
public record PastPacks(
    String ref,
    String code,
    String lot,
    LocalDate expiresOn,
    String udi,
    Long locationId,
    int packs,
    MovementReason reason,
    DrawerReason drawerReason,
    String note,
    Long loanId,
    Long patientId,
    LocalDate orderedOn,
    Instant at) {}
