package clinic.stimshelf.whatif;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.loans.PastLending;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.whatif.PoolQuestion.PoolAnswer;
import clinic.stimshelf.whatif.PoolQuestion.PoolPoint;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** How many units to own, with numbers of one's own. */
@Path("/numbers/units")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class UnitsNumbersPages {
  private static final int AROUND = 12;
  private static final Map<String, String> FIELDS = Map.of("turnedAwayTarget", "target");

  @Inject PastLending lending;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitsNumbers(Form form, String kind, List<Option> kinds, PastLending.OfKind own, Told told)
      implements TemplateInstance {}

  @GET
  public Response page(@Context UriInfo uri) {
    Long here = signedIn.locationOr(null);
    Form form = Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()));
    List<PastLending.OfKind> lent = lending.of(here);
    List<Option> kinds = PastLoans.options(lent);
    String kind = NumbersPages.chosen(form, "kind", kinds);
    PastLending.OfKind own = PastLoans.chosen(lent, kind);
    boolean asked = form.names().contains("requestsPerWeek");
    if (!asked) {
      form.prefill("turnaroundDays", locations.settings(here).text(Setting.TURNAROUND_DAYS))
          .prefill("target", "5")
          .prefill("units", own.units());
      if (own.known()) {
        form.prefill("requestsPerWeek", Figures.typed(own.requestsPerWeek()))
            .prefill("meanDaysAway", Figures.typed(own.meanDaysAway()));
      }
    }
    Told told = asked || own.known() ? told(form) : null;
    return NumbersPages.shown(form, new UnitsNumbers(form, kind, kinds, own, told));
  }

  private static Told told(Form form) {
    Typed typed =
        new Typed(form)
            .number("requestsPerWeek", "Requests a week", Bound.AMOUNT)
            .number("meanDaysAway", "Days away", Bound.SPAN)
            .number("turnaroundDays", "Days until ready again", Bound.SPAN)
            .number("units", "Units", PoolQuestion.UNITS);
    BigDecimal target = typed.share("target", "Turned away, of 100");
    if (target != null) {
      typed.question().set("turnedAwayTarget", JsonNodeFactory.instance.numberNode(target));
    }
    PoolAnswer answer = typed.answer(PoolQuestion::answer, FIELDS);
    return answer == null
        ? null
        : told(
            answer,
            Integer.parseInt(new BigDecimal(form.value("units")).toBigInteger() + ""),
            target.doubleValue());
  }

  private static Told told(PoolAnswer answer, int units, double target) {
    int low = Math.max(0, Math.min(units, answer.unitsForTarget()) - AROUND);
    int high = Math.min(answer.curve().size(), Math.max(units, answer.unitsForTarget()) + 4);
    List<PoolPoint> around = answer.curve().subList(low, high);
    Drawn.Sheet sheet =
        new Drawn.Sheet(
            low, high - 1.0, around.stream().mapToDouble(PoolPoint::turnedAway).max().orElse(1));
    List<Drawn.Dot> dots = new ArrayList<>();
    dots.add(sheet.dot(units, answer.turnedAway(), units + " units"));
    if (answer.unitsForTarget() != units) {
      dots.add(
          sheet.dot(
              answer.unitsForTarget(),
              answer.curve().get(answer.unitsForTarget()).turnedAway(),
              answer.unitsForTarget() + " for the goal"));
    }
    String headline =
        "With "
            + units
            + (units == 1 ? " unit, " : " units, ")
            + Figures.of100(answer.turnedAway())
            + " of 100 requests find none";
    List<String> lines = new ArrayList<>();
    lines.add(
        answer.unitsForTarget()
            + (answer.unitsForTarget() == 1 ? " unit is" : " units are")
            + " the fewest with which no more than "
            + Figures.of100(target)
            + " of 100 are turned away.");
    lines.add(
        "On average "
            + Figures.number(answer.offeredLoad())
            + " units would be in use if there were always enough.");
    lines.add(
        answer.mustWait() == null
            ? "If nobody goes elsewhere and all wait in turn, the queue would grow without end:"
                + " that many units are not above what is in use."
            : "If all wait in turn instead, "
                + Figures.of100(answer.mustWait())
                + " of 100 must wait; over all of them the wait is "
                + Figures.number(answer.meanWaitDays())
                + " days on average.");
    return new Told(
        headline,
        lines,
        new Drawn(
            sheet.straight(
                around.stream()
                    .map(point -> new Drawn.Point(point.units(), point.turnedAway()))
                    .toList()),
            "",
            dots,
            sheet.across(),
            sheet.top(),
            headline + "; more units turn fewer away"),
        List.of("Units", "Turned away, of 100", "Must wait, of 100"),
        around.stream()
            .map(
                point ->
                    new Told.Row(
                        String.valueOf(point.units()),
                        List.of(
                            Figures.of100(point.turnedAway()),
                            point.mustWait() == null ? "no end" : Figures.of100(point.mustWait())),
                        point.units() == units || point.units() == answer.unitsForTarget()))
            .toList());
  }
}
