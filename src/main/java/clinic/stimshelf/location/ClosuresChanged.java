package clinic.stimshelf.location;

/** A location's open days changed: what is due there must be looked at again. */
public record ClosuresChanged(Long locationId) {}
