package clinic.stimshelf.exchange;

import clinic.stimshelf.calc.days.SessionDays;
import clinic.stimshelf.calc.days.WeekRhythm;
import java.util.List;

/** The home programs that the demo's therapists write, after the templates of the same keys. */
final class SeedPrograms {
  private SeedPrograms() {}

  /** Pads of a program: code and how many lie at once. */
  record Pads(String code, int perSession) {}

  /**
   * A kind of program.
   *
   * @param placements with {@code SIDE} where the side goes
   * @param weight how often it is chosen
   */
  record Type(
      String template,
      int kind,
      int weight,
      String muscle,
      String placements,
      List<Pads> pads,
      int perDay,
      int daysPerWeek,
      int weeks,
      String frequency,
      String width,
      String on,
      String off,
      String contractions,
      String minutes,
      String setting) {

    /** Days of the sessions of a program that starts on that day. */
    List<Integer> sessionDays(int start, int weeks) {
      return SessionDays.of(SeedDay.date(start), weeks, WeekRhythm.times(daysPerWeek), perDay)
          .days()
          .stream()
          .map(SeedDay::day)
          .toList();
    }

    String padsText() {
      return String.join(
          " | ", pads.stream().map(line -> line.code() + ": " + line.perSession()).toList());
    }
  }

  static final List<Type> TYPES =
      List.of(
          new Type(
              "knee-replacement-early",
              SeedPlaces.DUO,
              30,
              "quadriceps",
              "quadriceps SIDE 2",
              List.of(new Pads("OB-5090", 4)),
              2,
              7,
              6,
              "50",
              "250",
              "15",
              "45",
              "15",
              null,
              "P3"),
          new Type(
              "knee-before-replacement",
              SeedPlaces.DUO,
              14,
              "quadriceps",
              "quadriceps SIDE 2",
              List.of(new Pads("OB-75130", 2)),
              1,
              5,
              6,
              "50",
              "250",
              "10",
              "30",
              null,
              "20",
              "P2"),
          new Type(
              "kneecap-pain",
              SeedPlaces.DUO,
              12,
              "vastus-medialis",
              "vastus-medialis SIDE 1",
              List.of(new Pads("SQ-5050", 2)),
              1,
              3,
              6,
              "40",
              "300",
              "8",
              "30",
              "15",
              null,
              "P2"),
          new Type(
              "acl-consensus",
              SeedPlaces.DUO,
              18,
              "quadriceps",
              "quadriceps SIDE 2",
              List.of(new Pads("OB-5090", 4)),
              1,
              3,
              5,
              "50",
              "300",
              "10",
              "40",
              "15",
              null,
              "P4"),
          new Type(
              "acl-home-four-round-pads",
              SeedPlaces.DUO,
              8,
              "quadriceps",
              "quadriceps SIDE 2",
              List.of(new Pads("RD-70", 4)),
              3,
              5,
              6,
              "50",
              "300",
              "10",
              "20",
              null,
              "20",
              "P5"),
          new Type(
              "ankle-instability",
              SeedPlaces.DUO,
              12,
              "peroneals",
              "peroneals SIDE 1",
              List.of(new Pads("SQ-5050", 2)),
              1,
              3,
              6,
              "50",
              "250",
              "10",
              "20",
              null,
              "20",
              "P1"),
          new Type(
              "hip-replacement-low-frequency",
              SeedPlaces.QUAD,
              12,
              "quadriceps",
              "quadriceps both 2 | calf both 2",
              List.of(new Pads("OB-5090", 4), new Pads("SQ-5050", 4)),
              1,
              5,
              5,
              "10",
              "200",
              "20",
              "20",
              null,
              "60",
              "P6"),
          new Type(
              "acl-home-multipath",
              SeedPlaces.QUAD,
              10,
              "quadriceps",
              "quadriceps SIDE 2 | hamstrings SIDE 2",
              List.of(new Pads("OB-5090", 8)),
              2,
              5,
              5,
              "50",
              "300",
              "5",
              "10",
              null,
              "20",
              "P7"));

  static Type pick(int kind, SeedChance chance) {
    List<Type> fitting = TYPES.stream().filter(type -> type.kind() == kind).toList();
    int left = chance.between(1, fitting.stream().mapToInt(Type::weight).sum());
    for (Type type : fitting) {
      left -= type.weight();
      if (left <= 0) {
        return type;
      }
    }
    throw new IllegalStateException("no type of program");
  }

  static SeedSheet sheet() {
    return new SeedSheet(
        "programs",
        "ref",
        "location",
        "patient",
        "therapist",
        "template",
        "on_seconds",
        "off_seconds",
        "ramp_up_seconds",
        "ramp_inside_on",
        "contractions",
        "minutes",
        "frequency_hz",
        "frequency_kind",
        "pulse_width_us",
        "intensity",
        "sessions_per_day",
        "days_per_week",
        "weeks",
        "starts_on",
        "placements",
        "pads",
        "due_kind",
        "due_on",
        "setting",
        "drafted_at",
        "signed_at",
        "first_session_at",
        "setting_unit",
        "setting_at",
        "stopped_at",
        "stop_reason",
        "abandoned");
  }
}
