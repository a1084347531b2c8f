package clinic.stimshelf.exchange;

import clinic.stimshelf.exchange.SeedLoans.Loan;
import clinic.stimshelf.exchange.SeedPeople.Patient;
import clinic.stimshelf.exchange.SeedPlaces.Place;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Appointments with treatments. Each weekday has times of its own, so that a day moved off a
 * holiday meets no other; each therapist has a bench unit, so that every treatment can be served.
 */
final class SeedAppointments {
  private static final int MINUTES = 40;
  private static final int LAST_WEEK = 3;

  /** Days between which a patient comes for treatment. */
  private record Course(Patient patient, int from, int to) {}

  final SeedSheet sheet =
      new SeedSheet(
          "appointments",
          "ref",
          "location",
          "patient",
          "therapist",
          "room",
          "unit",
          "starts_at",
          "minutes",
          "treatment_after_minutes",
          "treatment_minutes",
          "channels",
          "state",
          "reason");

  /** Place, day and minute at which somebody's first treatment in the clinic began. */
  final List<int[]> begun = new ArrayList<>();

  private final SeedChance chance;
  private final Set<String> hasBegun = new HashSet<>();

  SeedAppointments(SeedLoans loans, SeedPlaces places, SeedPeople people, long seed) {
    chance = new SeedChance(seed);
    for (int i = 0; i < places.places.size(); i++) {
      Place place = places.places.get(i);
      List<Course> courses = courses(loans, place, people);
      for (int week = -78; week <= LAST_WEEK; week++) {
        week(i, place, courses, week);
      }
    }
  }

  private List<Course> courses(SeedLoans loans, Place place, SeedPeople people) {
    List<Course> courses = new ArrayList<>();
    for (Loan loan : loans.loans) {
      if (loan.place == place) {
        int end = loan.returned == null ? Math.max(loan.due, 28) : loan.returned;
        courses.add(new Course(loan.patient, loan.out - 12, loan.missing ? loan.due : end + 9));
      }
    }
    List<Patient> pool =
        people.pools.stream()
            .filter(one -> one.place().equals(place.code()))
            .findFirst()
            .orElseThrow()
            .patients();
    for (int week = -78; week < LAST_WEEK; week += 2) {
      // Some come for treatment in the clinic alone.
      courses.add(new Course(chance.one(pool), 7 * week, 7 * week + 40));
    }
    return courses;
  }

  private void week(int index, Place place, List<Course> courses, int week) {
    double fill = week < -8 ? 0.42 : week < 2 ? 0.82 : 0.45;
    for (int weekday = 0; weekday < 5; weekday++) {
      int day = 7 * week + weekday;
      Set<String> booked = new HashSet<>();
      List<Course> open =
          courses.stream().filter(course -> course.from <= day && day <= course.to).toList();
      for (int slot = weekday; slot < place.slots().size(); slot += 5) {
        for (int who = 0; who < place.treating().size(); who++) {
          if (!open.isEmpty() && chance.of(fill)) {
            Patient patient = chance.one(open).patient;
            if (booked.add(patient.chart())) {
              book(index, place, patient, who, day, place.slots().get(slot));
            }
          }
        }
      }
    }
  }

  private void book(int index, Place place, Patient patient, int who, int day, int minute) {
    boolean treats = chance.of(0.75);
    double share = chance.share();
    String state =
        day > 6
            ? share < 0.04 ? "cancelled" : "booked"
            : share < 0.83
                ? "done"
                : share < 0.86
                    ? "partial"
                    : share < 0.93 ? "no-show" : share < 0.985 ? "cancelled" : "not-done";
    String reason =
        switch (state) {
          case "partial" -> "Tired, stopped early";
          case "cancelled" -> chance.one("Sick", "Work", "No ride", "Travel");
          case "not-done" -> "Knee too sore today";
          default -> null;
        };
    sheet.row(
        "A%05d".formatted(sheet.size() + 1),
        place.code(),
        patient.chart(),
        place.treating().get(who),
        "Gym",
        // Of what is still to come, the plan of the day chooses.
        treats && day <= 6 ? place.of(SeedPlaces.BENCH).get(who).tag : null,
        SeedDay.write(day, minute),
        MINUTES,
        treats ? 10 : null,
        treats ? chance.one(12, 15, 20) : null,
        treats ? chance.one(2, 2, 2, 4) : null,
        state,
        reason);
    if (treats
        && day <= 6
        && (state.equals("done") || state.equals("partial"))
        && hasBegun.add(patient.chart())) {
      begun.add(new int[] {index, day, minute + 8});
    }
  }
}
