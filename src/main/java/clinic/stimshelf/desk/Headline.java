package clinic.stimshelf.desk;

import java.util.ArrayList;
import java.util.List;

/** How things stand at the desk, in words. */
record Headline(String words, String lead) {
  private static final List<String> NUMBERS =
      List.of(
          "Nothing", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten",
          "Eleven", "Twelve");

  static Headline of(TodayView today) {
    int things = today.things();
    if (things == 0) {
      return new Headline(
          "Nothing waits at the desk",
          today.ready().size()
              + (today.ready().size() == 1 ? " unit is" : " units are")
              + " ready to go out. What comes up appears here by itself.");
    }
    List<String> parts = new ArrayList<>();
    part(parts, today.goingOut().size(), "going out");
    part(parts, today.comingIn().size(), "coming in");
    part(parts, today.late().size(), "late");
    int soon = today.appointments().size();
    part(parts, soon, soon == 1 ? "appointment without its unit" : "appointments without units");
    part(parts, today.toWipe().size(), "to wipe");
    part(parts, today.toInspect().size(), "to inspect");
    part(parts, today.toCharge().size(), "to charge");
    String number = things < NUMBERS.size() ? NUMBERS.get(things) : String.valueOf(things);
    return new Headline(
        number + (things == 1 ? " thing to do now" : " things to do now"),
        String.join(", ", parts) + ".");
  }

  private static void part(List<String> parts, int count, String words) {
    if (count > 0) {
      parts.add(count + " " + words);
    }
  }
}
