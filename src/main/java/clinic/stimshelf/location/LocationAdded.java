package clinic.stimshelf.location;

/** A location came into being: whoever made it must be able to work there. */
public record LocationAdded(Long locationId) {}
