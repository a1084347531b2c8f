package clinic.stimshelf.people;

import java.util.List;

/** A room below that has something to show on a patient's page implements this as a bean. */
public interface PatientMatters {

  /** Smaller comes first on the page. */
  int order();

  /** Heading of its part of the page, such as "Loans". */
  String heading();

  /** What there is, the most urgent first. */
  List<Matter> of(Long patientId);

  /** Whether its heading is left out where there is nothing: for what few patients ever have. */
  default boolean onlyIfAny() {
    return false;
  }

  /** A link to begin something new, or {@code null}. */
  default Matter start(Long patientId) {
    return null;
  }
}
