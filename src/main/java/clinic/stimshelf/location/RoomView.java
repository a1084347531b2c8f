package clinic.stimshelf.location;

/**
 * A room of a location.
 *
 * @param capacity how many people can be treated in it at once
 */
public record RoomView(Long id, String name, int capacity) {}
