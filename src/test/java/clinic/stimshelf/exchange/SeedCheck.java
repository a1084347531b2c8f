package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedLoans.Loan;
import clinic.stimshelf.exchange.SeedPlaces.Stimulator;
import clinic.stimshelf.exchange.SeedPrograms.Pads;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Holds the demo's loans to what no clinic could break, before a file is written. */
final class SeedCheck {
  private static final int FOREVER = 10_000;

  /** Somebody or something in use from one day to another. */
  private record Use(int from, int to, String loan) {}

  private SeedCheck() {}

  /**
   * @throws IllegalStateException naming the first loan that cannot be
   */
  static void loans(SeedLoans all) {
    Map<String, List<Use>> units = new HashMap<>();
    Map<String, List<Use>> patients = new HashMap<>();
    for (Loan loan : all.loans) {
      int to = loan.returned == null ? FOREVER : loan.returned;
      int from = loan.unitBefore == null ? loan.out : loan.swappedOn();
      use(units, loan.unit.tag, new Use(from, to, loan.ref));
      if (loan.unitBefore != null) {
        use(units, loan.unitBefore, new Use(loan.out, loan.swappedOn(), loan.ref));
      }
      use(patients, loan.patient.chart(), new Use(loan.out, to, loan.ref));
      days(loan, to);
      pads(loan);
    }
    units.forEach(SeedCheck::apart);
    patients.forEach(SeedCheck::apart);
  }

  private static void use(Map<String, List<Use>> uses, String whose, Use use) {
    uses.computeIfAbsent(whose, one -> new ArrayList<>()).add(use);
  }

  private static void apart(String whose, List<Use> uses) {
    uses.sort(Comparator.comparingInt(Use::from));
    for (int i = 1; i < uses.size(); i++) {
      if (uses.get(i - 1).to() >= uses.get(i).from()) {
        throw new IllegalStateException(
            whose + " is in two loans at once: " + uses.get(i - 1) + " and " + uses.get(i));
      }
    }
  }

  private static void days(Loan loan, int to) {
    boolean inOrder = loan.out < loan.start && loan.out < loan.due && loan.out < to;
    if (!inOrder || loan.out >= 0) {
      throw new IllegalStateException("The days of " + loan.ref + " are out of order");
    }
  }

  private static void pads(Loan loan) {
    for (Pads line : loan.type.pads()) {
      SeedStock.PadType type =
          SeedStock.TYPES.stream()
              .filter(one -> one.code().equals(line.code()))
              .findFirst()
              .orElseThrow();
      if (!type.connector().equals("pin-2mm")) {
        throw new IllegalStateException("The pads of " + loan.ref + " do not fit its leads");
      }
    }
    int pads = loan.type.pads().stream().mapToInt(Pads::perSession).sum();
    if (pads > 2 * channels(loan.unit)) {
      throw new IllegalStateException(loan.ref + " needs more channels than its unit has");
    }
  }

  private static int channels(Stimulator unit) {
    return unit.kind == SeedPlaces.DUO ? 2 : 4;
  }
}
