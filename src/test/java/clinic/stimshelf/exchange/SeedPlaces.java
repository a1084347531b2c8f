package clinic.stimshelf.exchange;

import clinic.stimshelf.codes.Tag;
import java.util.ArrayList;
import java.util.List;

/** The demo's two locations with their staff and units. All names are invented. */
final class SeedPlaces {
  static final int DUO = 0;
  static final int QUAD = 1;
  static final int BENCH = 2;
  static final List<String> KINDS = List.of("DUO-2", "QUAD-4", "BENCH-4");

  /**
   * A location.
   *
   * @param pts who may sign
   * @param treating who has appointments
   * @param slots starts of appointments, in minutes after midnight
   */
  record Place(
      String code,
      List<String> pts,
      List<String> treating,
      List<Integer> slots,
      List<Stimulator> units) {

    List<Stimulator> of(int kind) {
      return units.stream().filter(unit -> unit.kind == kind).toList();
    }
  }

  /** A unit with what becomes of it in the files. */
  static final class Stimulator {
    final String tag;
    final String serial;
    final int kind;
    final String spot;
    String state = "ready";
    String reason;
    boolean charged = true;
    int nextTest;

    Stimulator(String tag, String serial, int kind, String spot, int nextTest) {
      this.tag = tag;
      this.serial = serial;
      this.kind = kind;
      this.spot = spot;
      this.nextTest = nextTest;
    }
  }

  final List<Place> places = new ArrayList<>();
  private int number = 700;
  private int part = 900;

  SeedPlaces() {
    places.add(
        new Place(
            "HARBOR",
            List.of("theo", "amara"),
            List.of("theo", "amara", "jun"),
            grid(7 * 60 + 30, 14),
            new ArrayList<>()));
    places.add(
        new Place(
            "MILL",
            List.of("petra", "soledad"),
            List.of("petra", "soledad"),
            grid(8 * 60, 10),
            new ArrayList<>()));
    add(places.get(0), DUO, 8, "Window board");
    add(places.get(0), QUAD, 4, "Wall board");
    add(places.get(0), BENCH, 3, "Gym cart");
    add(places.get(1), DUO, 5, "Upper drawer");
    add(places.get(1), QUAD, 2, "Lower drawer");
    add(places.get(1), BENCH, 2, "Bay shelf");
  }

  private static List<Integer> grid(int first, int count) {
    List<Integer> slots = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      slots.add(first + 45 * i);
    }
    return slots;
  }

  private void add(Place place, int kind, int count, String spot) {
    for (int i = 0; i < count; i++) {
      Tag tag = Tag.next(Tag.Kind.UNIT, number);
      number = tag.number().orElseThrow();
      // A test every 52 weeks, spread over the year.
      int nextTest = 7 * (4 + (number * 11) % 44) + number % 5;
      place
          .units()
          .add(
              new Stimulator(
                  tag.text(),
                  "%s%04d".formatted(KINDS.get(kind).charAt(0), 4100 + 37 * number),
                  kind,
                  spot,
                  nextTest));
    }
  }

  List<SeedSheet> sheets() {
    return List.of(
        locations(), closures(), settings(), staff(), kinds(), spots(), units(), kits(), tests());
  }

  private static SeedSheet locations() {
    SeedSheet sheet =
        new SeedSheet(
            "locations",
            "code",
            "name",
            "zone",
            "hours",
            "rooms",
            "phone",
            "address",
            "after_hours_words",
            "emergency_words");
    sheet.row(
        "HARBOR",
        "Larkspur Rehab, Harbor Street",
        "America/New_York",
        "mon 07:00-19:00 | tue 07:00-19:00 | wed 07:00-19:00 | thu 07:00-19:00 | fri 07:00-19:00",
        "Gym: 6 | Bay 1: 1 | Bay 2: 1 | Bay 3: 1",
        "(555) 010-0140",
        "14 Harbor Street, Wrenfield",
        "After 7 PM leave a message; we call back before 9 AM.",
        "Call 911 for an emergency.");
    sheet.row(
        "MILL",
        "Larkspur Rehab, Old Mill",
        "America/New_York",
        "mon 08:00-18:00 | tue 08:00-18:00 | wed 08:00-18:00 | thu 08:00-18:00 | fri 08:00-16:00"
            + " | sat 09:00-13:00",
        "Gym: 4 | Bay A: 1 | Bay B: 1",
        "(555) 010-0170",
        "2 Mill Race, Otter Falls",
        "In the evening leave a message; we call back on the next open day.",
        "Call 911 for an emergency.");
    return sheet;
  }

  private static SeedSheet closures() {
    SeedSheet sheet = new SeedSheet("closures", "location", "on_day", "opens", "closes", "reason");
    sheet.row("HARBOR", SeedDay.write(17), "07:00", "12:00", "Staff training in the afternoon");
    sheet.row("MILL", SeedDay.write(-48), null, null, "Water main repair");
    sheet.row("MILL", SeedDay.write(24), "08:00", "12:00", "Inventory in the afternoon");
    return sheet;
  }

  private static SeedSheet settings() {
    SeedSheet sheet = new SeedSheet("settings", "location", "name", "value");
    sheet.row("HARBOR", "service-level", "0.98");
    sheet.row("MILL", "service-level", "0.95");
    sheet.row(
        "HARBOR",
        "after-hours-words-spanish",
        "Después de las 7 de la tarde deje un mensaje; le llamamos antes de las 9 de la mañana.");
    sheet.row("HARBOR", "emergency-words-spanish", "Llame al 911 en una emergencia.");
    sheet.row(
        "MILL",
        "after-hours-words-spanish",
        "Por la noche deje un mensaje; le llamamos el siguiente día de trabajo.");
    sheet.row("MILL", "emergency-words-spanish", "Llame al 911 en una emergencia.");
    return sheet;
  }

  private static SeedSheet staff() {
    SeedSheet sheet =
        new SeedSheet(
            "staff",
            "ref",
            "name",
            "initials",
            "credential",
            "license_number",
            "license_ends_on",
            "role",
            "username",
            "locations");
    String both = "HARBOR | MILL";
    sheet.row(
        "theo",
        "Theo Rapp",
        "TR",
        "pt",
        "PT-20417",
        SeedDay.write(412),
        "therapist",
        "therapist",
        both);
    sheet.row(
        "amara",
        "Amara Okafor",
        "AO",
        "pt",
        "PT-18830",
        SeedDay.write(230),
        "therapist",
        null,
        "HARBOR");
    sheet.row(
        "jun",
        "Jun Castellano",
        "JC",
        "pta",
        "PTA-5512",
        SeedDay.write(301),
        "therapist",
        null,
        "HARBOR");
    sheet.row(
        "petra",
        "Petra Lindqvist",
        "PL",
        "pt",
        "PT-17204",
        SeedDay.write(150),
        "therapist",
        null,
        "MILL");
    sheet.row(
        "soledad",
        "Soledad Marín",
        "SM",
        "pt",
        "PT-22096",
        SeedDay.write(66),
        "therapist",
        null,
        both);
    sheet.row("kit", "Kit Obuya", "KO", "student-pt", null, null, "therapist", null, "HARBOR");
    sheet.row(
        "frances", "Frances Deskin", "FD", "none", null, null, "front-desk", "frontdesk", both);
    sheet.row("omar", "Omar Haddad", "OH", "aide", null, null, "front-desk", null, "MILL");
    sheet.row("mara", "Mara Nagel", "MN", "none", null, null, "manager", "manager", both);
    return sheet;
  }

  private static SeedSheet kinds() {
    SeedSheet sheet =
        new SeedSheet(
            "unit-kinds",
            "code",
            "name",
            "channels",
            "connector",
            "output",
            "charge_days",
            "cell_type",
            "price",
            "lends_out",
            "contents");
    String home =
        "lead-set: Lead wires | charger: Charger | bag: Carry bag (may be owed)"
            + " | manual: Instructions (may be owed)";
    sheet.row(
        "DUO-2",
        "Two-channel home unit",
        2,
        "pin-2mm",
        "milliamperes",
        30,
        "built in",
        389,
        "yes",
        home);
    sheet.row(
        "QUAD-4",
        "Four-channel home unit",
        4,
        "pin-2mm",
        "milliamperes",
        30,
        "built in",
        645,
        "yes",
        home);
    sheet.row(
        "BENCH-4",
        "Four-channel bench unit",
        4,
        "snap",
        "level",
        null,
        "mains",
        2150,
        "no",
        "lead-set: Lead wires | manual: Instructions (may be owed)");
    return sheet;
  }

  private SeedSheet spots() {
    SeedSheet sheet = new SeedSheet("storage-spots", "location", "name", "position");
    for (Place place : places) {
      int position = 1;
      for (String spot : place.units().stream().map(unit -> unit.spot).distinct().toList()) {
        sheet.row(place.code(), spot, position++);
      }
    }
    return sheet;
  }

  private SeedSheet units() {
    SeedSheet sheet =
        new SeedSheet(
            "units",
            "tag",
            "serial",
            "kind",
            "location",
            "spot",
            "purpose",
            "state",
            "state_reason",
            "next_test_on",
            "charged_at",
            "acquired_on");
    for (Place place : places) {
      int row = 0;
      for (Stimulator unit : place.units()) {
        sheet.row(
            unit.tag,
            unit.serial,
            KINDS.get(unit.kind),
            place.code(),
            unit.spot,
            unit.kind == DUO ? "home" : unit.kind == QUAD ? "both" : "clinic",
            unit.state,
            unit.reason,
            SeedDay.write(unit.nextTest),
            unit.kind == BENCH ? null : SeedDay.write(unit.charged ? -3 : -48, 15 * 60 + 5 * row),
            SeedDay.write(-7 * (90 + row)));
        row++;
      }
    }
    return sheet;
  }

  private SeedSheet kits() {
    SeedSheet sheet =
        new SeedSheet("kits", "ref", "unit", "part", "name", "tag", "essential", "present");
    for (Place place : places) {
      for (Stimulator unit : place.units()) {
        Tag tag = Tag.next(Tag.Kind.PART, part);
        part = tag.number().orElseThrow();
        sheet.row(
            unit.tag + "-leads", unit.tag, "lead-set", "Lead wires", tag.text(), "yes", "yes");
        if (unit.kind != BENCH) {
          sheet.row(unit.tag + "-charger", unit.tag, "charger", "Charger", null, "yes", "yes");
          boolean bag = part % 9 != 4;
          sheet.row(
              unit.tag + "-bag", unit.tag, "bag", "Carry bag", null, "no", bag ? "yes" : "no");
        }
        sheet.row(unit.tag + "-manual", unit.tag, "manual", "Instructions", null, "no", "yes");
      }
    }
    return sheet;
  }

  private SeedSheet tests() {
    SeedSheet sheet =
        new SeedSheet(
            "safety-tests",
            "ref",
            "unit",
            "tested_on",
            "passed",
            "next_due_on",
            "tester",
            "certificate");
    for (Place place : places) {
      for (Stimulator unit : place.units()) {
        for (int year = 1; year <= 2; year++) {
          int tested = unit.nextTest - 364 * year;
          if (tested > -7 * 80) {
            sheet.row(
                unit.tag + "-test" + year,
                unit.tag,
                SeedDay.write(tested),
                "yes",
                SeedDay.write(tested + 364),
                "Bellweather Bench Service",
                "B-%05d".formatted(31000 + Math.abs(tested) * 3));
          }
        }
      }
    }
    return sheet;
  }
}
