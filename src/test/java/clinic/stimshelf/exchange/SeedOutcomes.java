package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedLoans.Loan;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** What therapists of the demo measured, at check out and every other week. Invented figures. */
final class SeedOutcomes {
  private static final Set<String> THIGH = Set.of("quadriceps", "vastus-medialis");

  final SeedSheet sheet =
      new SeedSheet(
          "outcome-notes",
          "ref",
          "location",
          "patient",
          "program",
          "measure",
          "side",
          "what",
          "involved",
          "uninvolved",
          "happened_at");

  SeedOutcomes(List<Loan> loans, long seed) {
    for (int i = 0; i < loans.size(); i++) {
      Loan loan = loans.get(i);
      boolean oneSide = !loan.type.placements().contains("both");
      if (oneSide && THIGH.contains(loan.type.muscle())) {
        // Each course has its own chance, so that a change in one leaves the others as they are.
        course(loan, new SeedChance(seed + 7919L * i));
      }
    }
  }

  private void course(Loan loan, SeedChance chance) {
    double other = chance.around(142, 24);
    double share = chance.around(0.56, 0.07);
    double gain = loan.adherence * chance.around(0.055, 0.012);
    double girth = chance.around(47, 3);
    int number = 0;
    for (int day = loan.out; day <= Math.min(loan.lastDay(), -1); day = next(day)) {
      // On the day of check out before the unit is handed over, later in the morning.
      int minute = number == 0 ? loan.outMinute - 50 : 9 * 60 + 10;
      row(
          loan,
          ++number,
          "peak-torque",
          "Knee extension, isometric, knee bent 60 degrees",
          Math.max(20, other * Math.min(1.02, share + number * gain + chance.around(0, 0.015))),
          other + chance.around(0, 2.5),
          SeedDay.write(day, minute));
      if (number % 2 == 1) {
        row(
            loan,
            100 + number,
            "girth",
            "Thigh, 15 cm above the joint line",
            girth - Math.max(0.2, 2.4 - number * 0.35),
            girth,
            SeedDay.write(day, minute + 4));
      }
    }
  }

  private static int next(int day) {
    return SeedDay.weekday(day + 14);
  }

  private void row(
      Loan loan,
      int number,
      String measure,
      String what,
      double involved,
      double uninvolved,
      String at) {
    sheet.row(
        loan.ref.replace('L', 'O') + "-" + number,
        loan.place.code(),
        loan.patient.chart(),
        loan.ref.replace('L', 'P'),
        measure,
        loan.side,
        what,
        tenth(involved),
        tenth(uninvolved),
        at);
  }

  private static String tenth(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }
}
