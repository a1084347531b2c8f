package clinic.stimshelf.whatif;

import java.io.Serial;
import java.util.List;

/** A question that cannot be answered as it was asked. */
final class Unfit extends RuntimeException {
  @Serial private static final long serialVersionUID = 1L;

  private final transient List<Fault> faults;

  /**
   * What is wrong with one field.
   *
   * @param field its place in the question, such as {@code lots[2].uses}; empty for the whole
   * @param says goes on where the field's name ends: "is missing; it must be …"
   */
  record Fault(String field, String says) {

    String sentence() {
      return (field.isEmpty() ? "The body" : field) + " " + says;
    }
  }

  Unfit(List<Fault> faults) {
    super(faults.get(0).sentence());
    this.faults = List.copyOf(faults);
  }

  List<Fault> faults() {
    return faults;
  }
}
