package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedPeople.Patient;
import clinic.stimshelf.exchange.SeedPlaces.Place;
import clinic.stimshelf.exchange.SeedPlaces.Stimulator;
import clinic.stimshelf.exchange.SeedPrograms.Type;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Eighteen months of programs and loans: unit by unit, with the present arranged by hand. */
final class SeedLoans {
  /** First day of the story. */
  static final int FIRST = -78 * 7;

  private static final int SWAPPED_AFTER = 8;

  /** A loan with its program. Days count from this week's Monday, times in minutes. */
  static final class Loan {
    Place place;
    Stimulator unit;
    Patient patient;
    Type type;
    String side;
    String therapist;
    String ref;
    int out;
    int outMinute;
    int start;
    int weeks;
    int due;
    Integer returned;
    int returnedMinute;
    boolean missing;
    Integer stopped;
    String stopReason;
    Integer dueBefore;
    String unitBefore;
    double adherence;

    /** From this day on not one session takes place. */
    int missesOf = Integer.MAX_VALUE;

    List<Integer> sessionDays() {
      return type.sessionDays(start, weeks);
    }

    int swappedOn() {
      return SeedDay.weekday(out + SWAPPED_AFTER);
    }

    /** The last day on which a session could be done. */
    int lastDay() {
      int last = returned == null ? 6 : returned - 1;
      return stopped == null ? last : Math.min(last, stopped);
    }
  }

  final List<Loan> loans = new ArrayList<>();
  private final SeedChance chance;
  private final SeedPeople people;
  private final Map<String, List<int[]>> busy = new HashMap<>();

  SeedLoans(SeedPlaces places, SeedPeople people, SeedChance chance) {
    this.people = people;
    this.chance = chance;
    Map<Stimulator, Integer> until = new HashMap<>();
    present(places, until);
    for (Place place : places.places) {
      for (int kind : List.of(SeedPlaces.DUO, SeedPlaces.QUAD)) {
        for (Stimulator unit : place.of(kind)) {
          history(place, unit, until.getOrDefault(unit, -10));
        }
      }
    }
    loans.sort(Comparator.comparingInt((Loan loan) -> loan.out).thenComparing(l -> l.unit.tag));
    for (int i = 0; i < loans.size(); i++) {
      loans.get(i).ref = "L%04d".formatted(i + 1);
    }
    swaps();
  }

  /** What stands on the pages in the week in which the demo is loaded. */
  private void present(SeedPlaces places, Map<Stimulator, Integer> until) {
    Place harbor = places.places.get(0);
    Place mill = places.places.get(1);
    List<Stimulator> duo = harbor.of(SeedPlaces.DUO);
    List<Stimulator> quad = harbor.of(SeedPlaces.QUAD);
    // Some due day on each weekday of the week; those that come back do so on the day.
    running(harbor, duo.get(0), 0, until).returned = 0;
    behindPlan(running(harbor, duo.get(1), 4, until)).therapist = "theo";
    running(harbor, duo.get(2), 2, until).returned = 2;
    extended(running(harbor, duo.get(3), 1, until));
    running(harbor, duo.get(4), -13, until);
    over(running(harbor, duo.get(6), -3, until), duo.get(6), "to-wipe");
    over(running(harbor, duo.get(7), -4, until), duo.get(7), "to-inspect");
    running(harbor, quad.get(0), 7, until).therapist = "theo";
    quad.get(3).state = "out-of-service";
    quad.get(3).reason = "Display stays dark; sent for repair";
    List<Stimulator> millDuo = mill.of(SeedPlaces.DUO);
    running(mill, millDuo.get(0), 1, until).returned = 1;
    running(mill, millDuo.get(1), 3, until).returned = 3;
    running(mill, millDuo.get(2), -5, until).adherence = 0.5;
    running(mill, millDuo.get(3), -40, until).missing = true;
    millDuo.get(4).charged = false;
    running(mill, mill.of(SeedPlaces.QUAD).get(0), 29, until);
    harbor.of(SeedPlaces.QUAD).get(2).nextTest = 12;
    duo.get(5).nextTest = 150;
    millDuo.get(4).nextTest = -6;
  }

  private static Loan behindPlan(Loan loan) {
    loan.adherence = 0.45;
    loan.missesOf = -5;
    return loan;
  }

  private static void extended(Loan loan) {
    loan.weeks += 2;
    loan.dueBefore = SeedDay.weekday(last(loan) - 14 + 1);
    loan.due = SeedDay.weekday(last(loan) + 1);
  }

  private static void over(Loan loan, Stimulator unit, String state) {
    loan.returned = -3;
    loan.returnedMinute = 15 * 60 + 20;
    unit.state = state;
  }

  private Loan running(Place place, Stimulator unit, int due, Map<Stimulator, Integer> until) {
    Loan loan = begin(place, unit);
    int start = due - 7 * loan.weeks - 12;
    do {
      start++;
      loan.start = start;
    } while (SeedDay.weekday(last(loan) + 1) < due);
    loan.due = due;
    loan.out = SeedDay.weekdayBefore(loan.start);
    loan.patient = patient(place, loan.out, 30);
    loans.add(loan);
    until.put(unit, loan.out - 9);
    return loan;
  }

  private void history(Place place, Stimulator unit, int until) {
    int day = FIRST + chance.between(0, 30);
    while (true) {
      Loan loan = begin(place, unit);
      loan.out = SeedDay.weekday(day);
      loan.start = loan.out + 1;
      if (chance.of(0.1)) {
        loan.weeks += 2;
        loan.dueBefore = SeedDay.weekday(last(loan) - 14 + 1);
      }
      loan.due = SeedDay.weekday(last(loan) + 1);
      if (chance.of(0.09)) {
        loan.stopped = SeedDay.weekday(loan.start + chance.between(6, 21));
        loan.stopReason =
            chance.one(
                "Goal reached early",
                "Skin stayed red",
                "Operated elsewhere",
                SeedCourses.GIVEN_UP);
        loan.returned = SeedDay.weekday(loan.stopped + chance.between(0, 5));
        loan.dueBefore = null;
      } else {
        loan.returned = SeedDay.weekday(loan.due + lateness());
      }
      if (loan.returned > until) {
        return;
      }
      loan.patient = patient(place, loan.out, loan.returned);
      loans.add(loan);
      day = loan.returned + chance.between(7, 24);
    }
  }

  /** Three of four come in time, some a day or two before; few come weeks late. */
  private int lateness() {
    double share = chance.share();
    return share < 0.12
        ? -chance.between(1, 3)
        : share < 0.76
            ? 0
            : share < 0.9
                ? chance.between(1, 3)
                : share < 0.97 ? chance.between(4, 12) : chance.between(13, 28);
  }

  private Loan begin(Place place, Stimulator unit) {
    Loan loan = new Loan();
    loan.place = place;
    loan.unit = unit;
    loan.type = SeedPrograms.pick(unit.kind, chance);
    loan.weeks = loan.type.weeks();
    loan.side = chance.one("left", "right");
    loan.therapist = chance.one(place.pts());
    loan.outMinute = chance.between(20, 28) * 30 + chance.between(0, 29);
    loan.returnedMinute = chance.between(19, 30) * 30 + chance.between(0, 25);
    loan.adherence = Math.max(0.35, Math.min(0.98, chance.around(0.8, 0.13)));
    return loan;
  }

  private static int last(Loan loan) {
    List<Integer> days = loan.sessionDays();
    return days.get(days.size() - 1);
  }

  /**
   * Somebody of the location who has no other loan around that time, of those the least treated.
   */
  Patient patient(Place place, int from, int to) {
    List<Patient> pool =
        people.pools.stream()
            .filter(one -> one.place().equals(place.code()))
            .findFirst()
            .orElseThrow()
            .patients();
    List<Patient> free =
        pool.stream().filter(one -> isFree(one.chart(), from - 30, to + 30)).toList();
    int least = free.stream().mapToInt(one -> spans(one.chart()).size()).min().orElseThrow();
    Patient chosen =
        chance.one(free.stream().filter(one -> spans(one.chart()).size() == least).toList());
    spans(chosen.chart()).add(new int[] {from, to});
    return chosen;
  }

  private boolean isFree(String chart, int from, int to) {
    return spans(chart).stream().allMatch(span -> span[1] < from || to < span[0]);
  }

  List<int[]> spans(String chart) {
    return busy.computeIfAbsent(chart, one -> new ArrayList<>());
  }

  /** In a few loans a unit of the same kind, idle at first, was handed over in the middle. */
  private void swaps() {
    int wanted = 6;
    for (int i = loans.size() - 1; i >= 0 && wanted > 0; i--) {
      Loan loan = loans.get(i);
      if (!loan.missing
          && loan.stopped == null
          && loan.dueBefore == null
          && loan.out + SWAPPED_AFTER + 4 < Math.min(0, loan.due)
          && (wanted == 6 || chance.of(0.3))) {
        Stimulator idle =
            loan.place.of(loan.unit.kind).stream()
                .filter(unit -> unit != loan.unit && idle(unit, loan.out, loan.out + SWAPPED_AFTER))
                .findFirst()
                .orElse(null);
        if (idle != null) {
          loan.unitBefore = idle.tag;
          wanted--;
        }
      }
    }
  }

  /** Two days of care lie between two uses. */
  private boolean idle(Stimulator unit, int from, int to) {
    return loans.stream()
        .filter(loan -> loan.unit == unit || unit.tag.equals(loan.unitBefore))
        .allMatch(
            loan -> {
              boolean lentHere = loan.unit == unit;
              Integer back = lentHere ? loan.returned : Integer.valueOf(loan.out + SWAPPED_AFTER);
              return loan.out > to + 3 || (back != null && back + 2 < from);
            });
  }

  /** Loans and the extensions and swaps within them. */
  List<SeedSheet> sheets() {
    SeedSheet sheet =
        new SeedSheet(
            "loans",
            "ref",
            "location",
            "unit",
            "program",
            "checked_out_at",
            "due_on",
            "returned_at",
            "missing",
            "note");
    SeedSheet turns =
        new SeedSheet(
            "loan-turns",
            "location",
            "loan",
            "kind",
            "happened_at",
            "from_unit",
            "from_due",
            "reason");
    for (Loan loan : loans) {
      String place = loan.place.code();
      sheet.row(
          loan.ref,
          place,
          loan.unit.tag,
          loan.ref.replace('L', 'P'),
          SeedDay.write(loan.out, loan.outMinute),
          SeedDay.write(loan.due),
          loan.returned == null ? null : SeedDay.write(loan.returned, loan.returnedMinute),
          loan.missing ? "yes" : "no",
          loan.missing ? "Three calls and a letter without an answer" : null);
      if (loan.dueBefore != null && loan.dueBefore - 4 > loan.out && loan.dueBefore < 5) {
        turns.row(
            place,
            loan.ref,
            "extension",
            SeedDay.write(SeedDay.weekday(loan.dueBefore - 4), 11 * 60 + 10),
            null,
            SeedDay.write(loan.dueBefore),
            "Strength still behind the other side");
      }
      if (loan.unitBefore != null) {
        turns.row(
            place,
            loan.ref,
            "swap",
            SeedDay.write(loan.swappedOn(), 10 * 60 + 40),
            loan.unitBefore,
            null,
            "Channel 2 cut out during sessions");
      }
    }
    return List.of(sheet, turns);
  }
}
