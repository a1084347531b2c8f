package clinic.stimshelf.whatif;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.loans.PastLending;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.whatif.CurveTold.Step;
import clinic.stimshelf.whatif.ReturnsQuestion.ReturnsAnswer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** How late units come home, with numbers of one's own. */
@Path("/numbers/lateness")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class LatenessNumbersPages {
  static final String SUCH = "days late, then back or out, then how many, such as 3 back 5";

  @Inject PastLending lending;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LatenessNumbers(Form form, String kind, List<Option> kinds, int own, Told told)
      implements TemplateInstance {}

  @GET
  public Response page(@QueryParam("kind") String asked) {
    return page(Form.empty().prefill("kind", asked), false);
  }

  @POST
  public Response answer(MultivaluedMap<String, String> typed) {
    return page(Form.of(typed), true);
  }

  private Response page(Form form, boolean asked) {
    Long here = signedIn.locationOr(null);
    List<PastLending.OfKind> lent = lending.of(here);
    List<Option> kinds = PastLoans.options(lent);
    String kind = NumbersPages.chosen(form, "kind", kinds);
    Map<String, Integer> own =
        asked
            ? Map.of()
            : PastLoans.lateness(PastLoans.chosen(lent, kind).loans(), locations.today(here));
    if (!own.isEmpty()) {
      form.prefill(
          "lines",
          own.entrySet().stream()
              .map(e -> e.getKey() + " " + e.getValue())
              .collect(Collectors.joining("\n")));
    }
    Told told = asked || !own.isEmpty() ? told(form) : null;
    int loansSeen = own.values().stream().mapToInt(Integer::intValue).sum();
    return NumbersPages.shown(form, new LatenessNumbers(form, kind, kinds, loansSeen, told));
  }

  private static Told told(Form form) {
    ReturnsAnswer answer =
        new Typed(form)
            .lines(
                "lines",
                "observations",
                "Loans",
                SUCH,
                words -> life(words, "days", "returned", "back", "out"))
            .answer(ReturnsQuestion::answer, Map.of("observations", "lines"));
    return answer == null ? null : told(answer);
  }

  /** A line: how long, one of two words, and how many alike. */
  static JsonNode life(String[] words, String time, String ended, String yes, String no) {
    if (words.length < 2 || words.length > 3) {
      throw new IllegalArgumentException("words");
    }
    BigDecimal count = words.length == 3 ? new BigDecimal(words[2]) : BigDecimal.ONE;
    BigDecimal span = new BigDecimal(words[0]);
    if (!Bound.SPAN.allows(span)
        || !ReturnsQuestion.ALIKE.allows(count)
        || !(words[1].equalsIgnoreCase(yes) || words[1].equalsIgnoreCase(no))) {
      throw new IllegalArgumentException("values");
    }
    ObjectNode life = JsonNodeFactory.instance.objectNode();
    life.put(time, span);
    life.put(ended, words[1].equalsIgnoreCase(yes));
    life.put("count", count);
    return life;
  }

  private static Told told(ReturnsAnswer answer) {
    List<Step> steps =
        answer.curve().stream()
            .map(p -> new Step(p.days(), p.atRisk(), p.returned(), p.stillOut(), p.standardError()))
            .toList();
    double onTime = 1 - CurveTold.leftAfter(steps, 0);
    double weekLate = CurveTold.leftAfter(steps, 7);
    String headline =
        steps.isEmpty()
            ? "None of these came back yet"
            : Figures.of100(onTime)
                + " of 100 are back by their due day; "
                + Figures.of100(weekLate)
                + " are still out a week later";
    double longest = steps.isEmpty() ? 7 : Math.max(7, steps.get(steps.size() - 1).at());
    return new Told(
        headline,
        List.of(
            answer.medianDays() == null
                ? "Fewer than half were seen to come back, so that no middle can be told."
                : "Half are back by "
                    + (answer.medianDays() == 0
                        ? "the due day."
                        : Figures.number(answer.medianDays()) + " days after the due day."),
            "Those still out count as out for as long as they were seen, neither as back nor as"
                + " lost."),
        CurveTold.drawn(steps, longest, null, headline),
        List.of("Days late", "Out until then", "Back then", "Still out, of 100", "Error"),
        CurveTold.rows(steps));
  }
}
