package clinic.stimshelf.pads;

/** What was counted of a lot: whole, sealed packs. */
public record CountedLot(Long lotId, int packs) {}
