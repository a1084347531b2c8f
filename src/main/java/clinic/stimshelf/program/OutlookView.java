package clinic.stimshelf.program;

import clinic.stimshelf.calc.dose.CurrentDensity;
import clinic.stimshelf.web.Days;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;

/**
 * What follows from a program, as the page shows it beside the form.
 *
 * @param headline of one session, or what is missing for it
 * @param rhythm the drawn bar, or {@code null}
 * @param course how many sessions and contractions in all, or {@code null}
 * @param span headline of the calendar, or {@code null}
 * @param month the calendar, or {@code null}
 * @param due the three choices
 * @param packs what leaves now and later, a line for each pad type
 * @param booking what to book so that later packs reach the patient, or {@code null}
 * @param density current density at the limit, or {@code null} where no current is known
 * @param care whether that density calls for special care
 */
record OutlookView(
    String headline,
    RhythmPicture rhythm,
    String course,
    String span,
    MonthPicture month,
    List<Due> due,
    List<String> packs,
    String booking,
    String density,
    boolean care,
    List<String> faults) {

  /** A due day to choose. */
  record Due(String kind, boolean possible, boolean chosen, String title, String why) {}

  static OutlookView of(Content content, Outlook outlook, MonthPicture month) {
    Outlook.Session session = outlook.session();
    return new OutlookView(
        headline(session),
        session == null ? null : RhythmPicture.of(session),
        course(session, outlook),
        span(outlook),
        month,
        due(content, outlook),
        outlook.pads().stream().map(OutlookView::packs).toList(),
        booking(outlook),
        density(outlook.density()),
        outlook.density() != null && outlook.density().callsForCare(),
        outlook.faults());
  }

  private static String headline(Outlook.Session session) {
    if (session == null) {
      return "One session: on and off are still blank";
    }
    if (session.contractions() == null) {
      return "One session: contractions or minutes are still blank";
    }
    return "One session: "
        + length(session.seconds())
        + ", "
        + session.contractions()
        + (session.contractions().intValue() == 1 ? " contraction" : " contractions");
  }

  private static String course(Outlook.Session session, Outlook outlook) {
    if (session == null) {
      return null;
    }
    String duty = String.format(Locale.US, "%.1f %% of the time on", session.dutyPercent());
    if (session.contractions() == null || outlook.days() == null) {
      return duty + ".";
    }
    long all = session.contractions().longValue() * outlook.days().count();
    return String.format(
        Locale.US, "%s. %,d sessions, %,d contractions in all.", duty, outlook.days().count(), all);
  }

  private static String span(Outlook outlook) {
    return outlook.days() == null
        ? null
        : outlook.days().count()
            + " sessions, "
            + Days.full(outlook.days().firstDay())
            + " to "
            + Days.full(outlook.days().lastDay());
  }

  private static List<Due> due(Content content, Outlook outlook) {
    int sessions = outlook.days() == null ? 0 : outlook.days().count();
    return outlook.due().stream()
        .map(
            due ->
                new Due(
                    DueWords.word(due.kind()),
                    due.day() != null,
                    due.kind() == content.dueKind(),
                    due.day() == null
                        ? capital(DueWords.title(due.kind())) + ": none"
                        : Days.shortly(due.day()) + ", " + DueWords.title(due.kind()),
                    DueWords.why(due, sessions)))
        .toList();
  }

  private static String packs(Outlook.PadLinePlan line) {
    StringBuilder words = new StringBuilder();
    words.append(line.name()).append(": ").append(count(line.now())).append(" now");
    line.later()
        .forEach(
            due ->
                words
                    .append(", ")
                    .append(due.packs())
                    .append(" by ")
                    .append(Days.shortly(due.day())));
    int changes = line.plan().changes().size();
    return words
        .append(changes == 0 ? "; no change of pads" : "; " + changes + " changes of pads")
        .append(", a set for ")
        .append(line.usesPerSet())
        .append(" sessions.")
        .toString();
  }

  private static String booking(Outlook outlook) {
    LocalDate first =
        outlook.pads().stream()
            .flatMap(line -> line.later().stream())
            .map(due -> due.day())
            .min(LocalDate::compareTo)
            .orElse(null);
    return first == null || outlook.nextAppointment() != null
        ? null
        : "No appointment is booked. Book one by "
            + Days.shortly(first)
            + ", so that the later packs reach the patient.";
  }

  private static String density(CurrentDensity density) {
    return density == null
        ? null
        : String.format(
            Locale.US,
            "%.2f mA/cm² (r.m.s. while on) at the limit under the smallest pad, all of it touching;"
                + " a pad that half touches doubles it.",
            density.milliamperesPerCm2());
  }

  private static String count(int packs) {
    return packs == 1 ? "1 pack" : packs + " packs";
  }

  private static String capital(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** "15 minutes", "14 min 15 s". */
  static String length(BigDecimal seconds) {
    BigDecimal[] parts = seconds.divideAndRemainder(BigDecimal.valueOf(60));
    String rest = DoseField.plain(parts[1].setScale(1, RoundingMode.HALF_UP)).toPlainString();
    if (parts[1].signum() == 0) {
      return parts[0].intValue() == 1 ? "1 minute" : parts[0].intValue() + " minutes";
    }
    return parts[0].signum() == 0 ? rest + " s" : parts[0].intValue() + " min " + rest + " s";
  }
}
