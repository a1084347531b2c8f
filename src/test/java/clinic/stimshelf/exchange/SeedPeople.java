package clinic.stimshelf.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The demo's patients: invented names, ages, languages and ways to be reached. */
final class SeedPeople {
  private static final List<String> FIRST =
      List.of(
          "Adaeze",
          "Alma",
          "Amir",
          "Anahí",
          "Anders",
          "Anneliese",
          "Arjun",
          "Beatriz",
          "Benedikt",
          "Callum",
          "Catalina",
          "Chioma",
          "Clara",
          "Dariusz",
          "Dolores",
          "Eamon",
          "Edith",
          "Elif",
          "Emeka",
          "Esperanza",
          "Farah",
          "Felipe",
          "Fumiko",
          "Gideon",
          "Giulia",
          "Graciela",
          "Halima",
          "Harold",
          "Hyun",
          "Ignacio",
          "Ines",
          "Isaac",
          "Ivana",
          "Jamal",
          "Joaquín",
          "Johanna",
          "Kamala",
          "Keoni",
          "Lakshmi",
          "Leif",
          "Lourdes",
          "Lucille",
          "Malik",
          "Marisol",
          "Mehmet",
          "Minh",
          "Naomi",
          "Nikolai",
          "Odalys",
          "Oluwaseun",
          "Orla",
          "Paloma",
          "Quentin",
          "Rafael",
          "Rosalind",
          "Samira",
          "Siobhan",
          "Tariq",
          "Teresa",
          "Uma",
          "Viktor",
          "Wanda",
          "Ximena",
          "Yusuf",
          "Zofia");
  private static final List<String> LAST =
      List.of(
          "Abara",
          "Aguirre",
          "Bakshi",
          "Balogh",
          "Barrow",
          "Brandvold",
          "Calloway",
          "Castell",
          "Chaudhry",
          "Corvin",
          "Dembélé",
          "Draper",
          "Eberhardt",
          "Escamilla",
          "Farrow",
          "Fontaine",
          "Gallardo",
          "Garrity",
          "Halloran",
          "Hoshino",
          "Ibarra",
          "Jankowski",
          "Kaplinsky",
          "Kealoha",
          "Lachance",
          "Lindgren",
          "Mbeki-Long",
          "Montoya",
          "Nakagawa",
          "Nwosu",
          "O'Dowd",
          "Oyelaran",
          "Pacheco",
          "Petrov",
          "Quiroga",
          "Ramanathan",
          "Rosario",
          "Sandoval",
          "Szabo",
          "Tadesse",
          "Thornbury",
          "Uribe",
          "Valcourt",
          "Vasquez-Roy",
          "Whitlock",
          "Yamane",
          "Zamora",
          "Zielinski");
  private static final List<String> STREETS =
      List.of(
          "Larkspur Court",
          "Tannery Lane",
          "Quince Street",
          "Ferry Road",
          "Chestnut Walk",
          "Kiln Alley");

  /** A patient as the other files need one. */
  record Patient(String chart, String name, boolean minor, String guardian, String language) {}

  /** Patients of one location, in the order in which they first came. */
  record Pool(String place, List<Patient> patients) {}

  final List<Pool> pools = new ArrayList<>();
  final SeedSheet sheet =
      new SeedSheet(
          "patients",
          "chart_number",
          "location",
          "name",
          "birth_date",
          "guardian_name",
          "guardian_relation",
          "language",
          "interpreter",
          "reach_by",
          "phone",
          "email",
          "address",
          "reminders_allowed");
  private int made;

  SeedPeople(SeedChance chance) {
    pools.add(new Pool("HARBOR", make("HARBOR", "H", 74, chance)));
    pools.add(new Pool("MILL", make("MILL", "M", 46, chance)));
  }

  private List<Patient> make(String place, String letter, int count, SeedChance chance) {
    List<Patient> patients = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      String first = FIRST.get((made * 29) % FIRST.size());
      String last = LAST.get((made * 31 + 5) % LAST.size());
      boolean minor = made % 15 == 7;
      boolean spanish = made % 8 == 3;
      String language = spanish ? "es" : made % 40 == 21 ? "vi" : "en";
      String chart = letter + "-" + (10200 + made * 7);
      String guardian = minor ? FIRST.get((made * 17 + 3) % FIRST.size()) + " " + last : null;
      patients.add(new Patient(chart, first + " " + last, minor, guardian, language));
      write(place, patients.get(i), spanish, chance);
      made++;
    }
    return patients;
  }

  private void write(String place, Patient patient, boolean spanish, SeedChance chance) {
    String way = chance.one("text", "text", "text", "call", "call", "email", "letter");
    if (patient.minor() && way.equals("letter")) {
      way = "call";
    }
    boolean mail = way.equals("email") || chance.of(0.4);
    String email =
        patient.name().toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", ".") + "@mail.example";
    String born =
        patient.minor()
            ? SeedDay.write(-chance.between(13 * 365, 17 * 365))
            : "%d-%02d-%02d"
                .formatted(
                    chance.of(0.7) ? chance.between(1938, 1972) : chance.between(1973, 2003),
                    chance.between(1, 12),
                    chance.between(1, 28));
    sheet.row(
        patient.chart(),
        place,
        patient.name(),
        born,
        patient.guardian(),
        patient.minor() ? chance.one("mother", "father", "grandmother") : null,
        patient.language(),
        !patient.language().equals("en") && (!spanish || chance.of(0.5)) ? "yes" : "no",
        way,
        way.equals("email") && chance.of(0.3)
            ? null
            : "(555) 01%d-0%03d".formatted(chance.between(0, 9), 100 + made % 100),
        mail && !way.equals("letter") ? email : null,
        way.equals("letter") || chance.of(0.5)
            ? "%d %s, %s"
                .formatted(
                    chance.between(2, 240),
                    chance.one(STREETS),
                    place.equals("MILL") ? "Otter Falls" : "Wrenfield")
            : null,
        chance.of(0.85) ? "yes" : "no");
  }
}
