package clinic.stimshelf.exchange;

import java.util.List;

/**
 * What an import did, or would do.
 *
 * @param faults everything wrong; if there is any, nothing was entered
 */
public record Outcome(List<Brought> files, List<Fault> faults) {
  public Outcome {
    files = List.copyOf(files);
    faults = List.copyOf(faults);
  }

  public boolean ok() {
    return faults.isEmpty();
  }
}
