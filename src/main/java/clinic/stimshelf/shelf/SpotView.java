package clinic.stimshelf.shelf;

/** A board or drawer of a location where units stand. */
public record SpotView(Long id, Long locationId, String name, int position, boolean active) {}
