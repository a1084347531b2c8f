package clinic.stimshelf.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes the demo's files anew. The same seed writes the same files; days are relative, so that the
 * demo is alive whenever it is loaded.
 *
 * <p>Run it with the folder to write to, usually {@code seed}.
 */
public final class SeedWriter {
  private static final long SEED = 20_417;

  private SeedWriter() {}

  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments.length == 0 ? "seed" : arguments[0]);
    for (SeedSheet sheet : sheets(SEED)) {
      sheet.writeTo(folder);
    }
  }

  static List<SeedSheet> sheets(long seed) {
    SeedPlaces places = new SeedPlaces();
    SeedPeople people = new SeedPeople(new SeedChance(seed + 11));
    SeedLoans loans = new SeedLoans(places, people, new SeedChance(seed + 13));
    SeedCheck.loans(loans);
    SeedCourses first = new SeedCourses(loans, places, seed, null);
    SeedAppointments appointments = new SeedAppointments(loans, places, people, seed + 17);
    SeedStock trial = new SeedStock(first, appointments.begun, places, seed + 19);
    // Now that it is known which lot went where, one of them turns out not to last.
    SeedCourses courses = new SeedCourses(loans, places, seed, trial.worst("HARBOR", "OB-5090"));
    SeedStock stock = new SeedStock(courses, appointments.begun, places, seed + 19);
    List<SeedSheet> sheets = new ArrayList<>(places.sheets());
    sheets.add(people.sheet);
    sheets.addAll(loans.sheets());
    sheets.addAll(
        List.of(
            courses.programs,
            courses.screenings,
            courses.consents,
            courses.logs,
            courses.wipes,
            courses.inspections,
            courses.faults,
            courses.requests));
    sheets.add(new SeedOutcomes(loans.loans, seed + 23).sheet);
    sheets.addAll(stock.sheets());
    sheets.add(appointments.sheet);
    return sheets;
  }
}
