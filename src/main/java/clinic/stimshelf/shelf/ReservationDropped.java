package clinic.stimshelf.shelf;

/**
 * A reserved unit was taken out of service or retired: whatever it was reserved for needs another.
 */
public record ReservationDropped(Long unitId, UseKind kind, Long reservedId) {}
