package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.List;

/**
 * What a scan of a pack tells.
 *
 * @param code the pad type, or {@code null} if its product number was never scanned in
 * @param lotId the lot, or {@code null} if it is not known here
 * @param lot the maker's lot number, or {@code null}
 * @param expiresOn as the label says, or {@code null}
 * @param count packs that one label stands for, or {@code null}
 * @param udi the code as it was read, or {@code null} where a lot number was typed
 * @param problems what to look at, as sentences
 */
public record ScannedPack(
    String code,
    Long lotId,
    String lot,
    LocalDate expiresOn,
    Integer count,
    String udi,
    List<String> problems) {}
