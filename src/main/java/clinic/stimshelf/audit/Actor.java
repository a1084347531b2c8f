package clinic.stimshelf.audit;

/**
 * Who acts. The room of accounts says it for a request; a scheduled job acts as Stimshelf itself.
 */
public interface Actor {

  /** The staff member's number, or {@code null} where no person acts. */
  Long staffId();

  /** The name that stands in the trail. */
  String name();
}
