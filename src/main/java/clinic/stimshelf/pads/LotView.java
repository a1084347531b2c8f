package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * A lot and what a location has of it.
 *
 * @param number the maker's lot number
 * @param packs sealed packs in the cupboard of the location
 * @param stateReason why it is quarantined or recalled, or {@code null}
 * @param consigned whether it is the supplier's until it is used
 * @param usable whether packs may leave today: neither quarantined, recalled nor expired
 */
public record LotView(
    Long id,
    String code,
    String number,
    LocalDate expiresOn,
    String udi,
    LotState state,
    String stateReason,
    int packs,
    boolean usable,
    boolean consigned) {}
