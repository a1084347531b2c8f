package clinic.stimshelf.people;

import clinic.stimshelf.web.Refusals;
import java.time.LocalDate;
import java.util.regex.Pattern;

/** What a patient's entry must hold by itself. */
final class PatientChecks {
  private static final Pattern CHART = Pattern.compile("[A-Za-z0-9._/-]{1,32}");
  private static final Pattern LANGUAGE = Pattern.compile("[a-z]{2,3}(-[A-Za-z0-9]{2,8})?");
  private static final Pattern EMAIL = Pattern.compile("[^\\s@]+@[^\\s@]+\\.[^\\s@]+");
  private static final Pattern PHONE = Pattern.compile("\\+?[0-9 ().-]{7,40}");
  private static final LocalDate EARLIEST = LocalDate.of(1890, 1, 1);

  private PatientChecks() {}

  static void check(NewPatient entry, LocalDate today, Refusals refusals) {
    String chart = entry.chartNumber() == null ? "" : entry.chartNumber().strip();
    if (!CHART.matcher(chart).matches()) {
      refusals.add(
          "chartNumber", "A chart number has 1 to 32 letters, digits, dots, dashes, _ or /.");
    }
    length(entry.name(), "name", "A name", 120, true, refusals);
    oneLine(entry.name(), "name", "A name", refusals);
    days(entry, today, refusals);
    guardian(entry, today, refusals);
    if (entry.language() != null && !LANGUAGE.matcher(entry.language()).matches()) {
      refusals.add("language", "A language is a tag such as en, es or zh.");
    }
    ways(entry, refusals);
  }

  private static void days(NewPatient entry, LocalDate today, Refusals refusals) {
    LocalDate born = entry.birthDate();
    if (born == null) {
      refusals.add("birthDate", "The birth date is missing.");
    } else if (born.isAfter(today) || born.isBefore(EARLIEST)) {
      refusals.add("birthDate", "A birth date lies between 1890 and today.");
    }
    LocalDate died = entry.diedOn();
    if (died != null && (died.isAfter(today) || (born != null && died.isBefore(born)))) {
      refusals.add("diedOn", "The day of death lies between the birth date and today.");
    }
  }

  private static void guardian(NewPatient entry, LocalDate today, Refusals refusals) {
    length(entry.guardianName(), "guardianName", "A guardian's name", 120, false, refusals);
    oneLine(entry.guardianName(), "guardianName", "A guardian's name", refusals);
    length(entry.guardianRelation(), "guardianRelation", "The relation", 60, false, refusals);
    boolean named = !blank(entry.guardianName());
    boolean related = !blank(entry.guardianRelation());
    if (entry.birthDate() != null
        && Ages.minor(entry.birthDate(), today)
        && !named
        && entry.diedOn() == null) {
      refusals.add(
          "guardianName", "Somebody under " + Ages.OF_AGE + " needs a guardian.", "Name one.");
    }
    if (named && !related) {
      refusals.add("guardianRelation", "Say what the guardian is, for instance mother.");
    } else if (related && !named) {
      refusals.add("guardianName", "The relation is given, but no guardian.");
    }
  }

  private static void ways(NewPatient entry, Refusals refusals) {
    if (!blank(entry.phone())
        && (!PHONE.matcher(entry.phone().strip()).matches()
            || entry.phone().chars().filter(Character::isDigit).count() < 7)) {
      refusals.add("phone", "A number has at least 7 digits, for instance (555) 010-0199.");
    }
    if (!blank(entry.email())
        && (entry.email().length() > 254 || !EMAIL.matcher(entry.email().strip()).matches())) {
      refusals.add("email", "An e-mail address looks like name@example.org.");
    }
    length(entry.address(), "address", "An address", 300, false, refusals);
    if (entry.reachBy() == null) {
      refusals.add("reachBy", "Say how the patient wants to be reached.");
      return;
    }
    switch (entry.reachBy()) {
      case TEXT, CALL -> {
        if (blank(entry.phone())) {
          refusals.add(
              "phone", "To be reached by " + entry.reachBy().words() + ", a number is needed.");
        }
      }
      case EMAIL -> {
        if (blank(entry.email())) {
          refusals.add("email", "To be reached by e-mail, an address is needed.");
        }
      }
      case LETTER -> {
        if (blank(entry.address())) {
          refusals.add("address", "To be reached by letter, a postal address is needed.");
        }
      }
    }
  }

  static void length(
      String text, String field, String what, int most, boolean needed, Refusals refusals) {
    if (blank(text)) {
      if (needed) {
        refusals.add(field, what + " is missing.");
      }
    } else if (text.strip().length() > most) {
      refusals.add(field, what + " has at most " + most + " characters.");
    }
  }

  /** Names go into mails and letters, where a line of its own could be taken for another thing. */
  private static void oneLine(String text, String field, String what, Refusals refusals) {
    if (text != null && text.strip().chars().anyMatch(Character::isISOControl)) {
      refusals.add(
          field, what + " stands on one line, without control characters.", "Type it by hand.");
    }
  }

  static boolean blank(String text) {
    return text == null || text.isBlank();
  }

  static String orNull(String text) {
    return blank(text) ? null : text.strip();
  }
}
