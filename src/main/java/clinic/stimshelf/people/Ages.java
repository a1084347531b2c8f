package clinic.stimshelf.people;

import java.time.LocalDate;
import java.time.Period;

/** Who is of age. */
final class Ages {
  /** In most states; a clinic elsewhere asks for a guardian of its own accord. */
  static final int OF_AGE = 18;

  private Ages() {}

  static int years(LocalDate born, LocalDate day) {
    return Period.between(born, day).getYears();
  }

  static boolean minor(LocalDate born, LocalDate day) {
    return years(born, day) < OF_AGE;
  }
}
