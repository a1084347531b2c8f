package clinic.stimshelf.whatif;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadPast;
import clinic.stimshelf.pads.PadWear;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.whatif.LotsQuestion.LotFound;
import clinic.stimshelf.whatif.LotsQuestion.LotsAnswer;
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
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Whether a lot is worse than the rest, with numbers of one's own. */
@Path("/numbers/lots")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class LotsNumbersPages {
  private static final String SUCH =
      "the lot, then sets worn too early, then sessions of all its sets, such as A1204 3 410";
  private static final Map<String, String> FIELDS = Map.of("lots", "lines", "alpha", "alpha");
  private static final int MOST_BARS = 12;

  @Inject PadCatalog catalog;
  @Inject PadPast past;
  @Inject SignedIn signedIn;

  /** A bar of the drawing. */
  record Bar(String lot, String y, String textY, String width, String rate, boolean suspect) {}

  /** The page. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LotsNumbers(
      Form form, String pad, List<Option> pads, int own, Told told, List<Bar> bars, int height)
      implements TemplateInstance {}

  @GET
  public Response page(@QueryParam("pad") String asked) {
    return page(Form.empty().prefill("pad", asked), false);
  }

  @POST
  public Response answer(MultivaluedMap<String, String> typed) {
    return page(Form.of(typed), true);
  }

  private Response page(Form form, boolean asked) {
    List<Option> pads = PadLifeNumbersPages.pads(catalog);
    String pad = NumbersPages.chosen(form, "pad", pads);
    List<PadPast.LotUse> own =
        asked || pad.isEmpty() ? List.of() : past.lots(pad, signedIn.locationOr(null));
    if (!asked) {
      form.prefill("alpha", Figures.typed(100 * PadWear.ALPHA));
    }
    if (!own.isEmpty()) {
      form.prefill(
          "lines",
          own.stream()
              .map(l -> l.lot() + " " + l.failures() + " " + l.uses())
              .collect(Collectors.joining("\n")));
    }
    LotsAnswer answer = asked || !own.isEmpty() ? answer(form) : null;
    List<Bar> bars = answer == null ? List.of() : bars(answer.lots());
    return NumbersPages.shown(
        form,
        new LotsNumbers(
            form,
            pad,
            pads,
            own.size(),
            answer == null ? null : told(answer),
            bars,
            20 * bars.size() + 4));
  }

  private static LotsAnswer answer(Form form) {
    Typed typed = new Typed(form).lines("lines", "lots", "Lots", SUCH, LotsNumbersPages::lot);
    BigDecimal alpha = typed.share("alpha", "False alarms, of 100");
    if (alpha != null) {
      typed.question().set("alpha", JsonNodeFactory.instance.numberNode(alpha));
    }
    return typed.answer(LotsQuestion::answer, FIELDS);
  }

  /** The last two words are numbers; a lot number may hold blanks. */
  private static JsonNode lot(String[] words) {
    if (words.length < 3) {
      throw new IllegalArgumentException("words");
    }
    int last = words.length - 1;
    BigDecimal failures = new BigDecimal(words[last - 1]);
    BigDecimal uses = new BigDecimal(words[last]);
    if (!Bound.COUNT.allows(failures)
        || !Bound.COUNT_FROM_1.allows(uses)
        || failures.compareTo(uses) > 0) {
      throw new IllegalArgumentException("values");
    }
    ObjectNode lot = JsonNodeFactory.instance.objectNode();
    lot.put("lot", String.join(" ", Arrays.copyOf(words, last - 1)));
    lot.put("failures", failures);
    lot.put("uses", uses);
    return lot;
  }

  private static Told told(LotsAnswer answer) {
    List<String> suspects =
        answer.lots().stream().filter(LotFound::suspect).map(LotFound::lot).toList();
    String headline =
        switch (suspects.size()) {
          case 0 -> "No lot stands out";
          case 1 -> "Lot " + suspects.get(0) + " is worse than the rest";
          default -> suspects.size() + " lots are worse than the rest";
        };
    List<String> lines = new ArrayList<>();
    lines.add(
        suspects.isEmpty()
            ? "The differences are such as chance alone makes between lots that are alike."
            : "So many worn early would hardly come about by chance. Look at who used it before"
                + " holding it back: one patient’s skin can make a lot look bad.");
    return new Told(
        headline,
        lines,
        null,
        List.of(
            "Lot", "Worn early", "Sessions", "In 1 000 sessions", "Chance if alike", "Adjusted"),
        answer.lots().stream()
            .map(
                l ->
                    new Told.Row(
                        l.lot(),
                        List.of(
                            String.valueOf(l.failures()),
                            String.valueOf(l.uses()),
                            Figures.number(l.ratePerThousand()),
                            Figures.of100(l.pValue()) + " of 100",
                            Figures.of100(l.adjustedPValue())
                                + " of 100"
                                + (l.suspect() ? ", stands out" : "")),
                        l.suspect()))
            .toList());
  }

  /** The worst lots first. */
  private static List<Bar> bars(List<LotFound> lots) {
    List<LotFound> worst =
        lots.stream()
            .sorted((a, b) -> Double.compare(b.ratePerThousand(), a.ratePerThousand()))
            .limit(MOST_BARS)
            .toList();
    double most = Math.max(1e-9, worst.isEmpty() ? 1 : worst.get(0).ratePerThousand());
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < worst.size(); i++) {
      LotFound lot = worst.get(i);
      bars.add(
          new Bar(
              Fields.shortened(lot.lot()),
              String.valueOf(20 * i + 4),
              String.valueOf(20 * i + 15),
              Figures.place(Math.max(0.5, 180 * lot.ratePerThousand() / most)),
              Figures.number(lot.ratePerThousand()),
              lot.suspect()));
    }
    return bars;
  }
}
