package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import jakarta.ws.rs.core.MultivaluedMap;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/**
 * What a manager chose to look at. What cannot be read stays in the form with its reason, and the
 * last quarter is shown.
 *
 * @param where the locations' numbers
 * @param place what they are called together
 * @param query the choice again, for links
 */
record Chosen(
    Form form, Period period, Against against, List<Long> where, String place, String query) {
  static final List<Option> SPANS =
      List.of(
          new Option("quarter", "last quarter"),
          new Option("month", "last month"),
          new Option("year", "this year"),
          new Option("days", "the two days below"));

  static Chosen of(MultivaluedMap<String, String> typed, SignedIn signedIn, Locations locations) {
    Form form = Form.of(typed);
    Long here = signedIn.locationOr(null);
    LocalDate today = locations.today(here);
    boolean everywhere = "all".equals(form.value("at")) && signedIn.locationIds().size() > 1;
    List<Long> where = everywhere ? signedIn.locationIds() : List.of(here);
    Period period = period(form, today);
    Against against = Against.PLAN;
    try {
      against = Against.of(form.value("against"));
    } catch (Malformed unknown) {
      form.wrong("against", unknown.getMessage());
    }
    form.prefill("span", "quarter")
        .prefill("against", against.word())
        .prefill("at", "here")
        .prefill("from", period.from())
        .prefill("to", period.to());
    return new Chosen(
        form,
        period,
        against,
        where,
        everywhere ? "all locations" : locations.byId(here).name(),
        "?span=days&from="
            + period.from()
            + "&to="
            + period.to()
            + "&against="
            + against.word()
            + "&at="
            + (everywhere ? "all" : "here"));
  }

  private static Period period(Form form, LocalDate today) {
    return switch (form.value("span")) {
      case "month" -> Period.lastMonth(today);
      case "year" -> Period.thisYear(today);
      case "days" -> {
        LocalDate from = form.day("from", "The first day");
        LocalDate to = form.day("to", "The last day");
        if (from != null && to != null) {
          try {
            yield new Period(from, to);
          } catch (Refusal refusal) {
            form.refused(refusal);
          }
        }
        yield Period.lastQuarter(today);
      }
      default -> Period.lastQuarter(today);
    };
  }

  static List<Option> againsts() {
    List<Option> options = new ArrayList<>();
    for (Against against : Against.values()) {
      options.add(new Option(against.word(), against.words()));
    }
    return options;
  }

  static List<Option> places(SignedIn signedIn, String here) {
    return signedIn.locationIds().size() > 1
        ? List.of(new Option("here", here), new Option("all", "all my locations"))
        : List.of();
  }
}
