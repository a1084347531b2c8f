package clinic.stimshelf.program;

import java.util.List;

/** What can be done next with a signed program in another room. Rooms below implement it. */
public interface NextSteps {

  /**
   * A step.
   *
   * @param words verb and thing, as a link says it
   * @param href path of the page
   */
  record Step(String words, String href) {}

  List<Step> of(SignedProgram program);
}
