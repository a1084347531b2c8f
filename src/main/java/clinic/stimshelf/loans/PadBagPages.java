package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.labels.Label;
import clinic.stimshelf.codes.labels.LabelDrawing;
import clinic.stimshelf.codes.labels.LabelSheet;
import clinic.stimshelf.codes.labels.LabelStock;
import clinic.stimshelf.codes.labels.SymbolKind;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.TagStock;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.UriInfo;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Labels for the bags in which a patient's opened pads are kept. A bag belongs to one person, so it
 * bears the chart number, which its symbol holds too; it says neither name nor what is treated.
 */
@Path("/loans/{id}/pad-bags")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class PadBagPages {
  @Inject Loans loans;
  @Inject PadsWorn worn;
  @Inject Patients patients;
  @Inject TagStock stock;
  @Inject SignedIn signedIn;

  /** A set in use. */
  public record Bag(Long id, String words, boolean chosen, PadSetView set) {}

  /**
   * The page.
   *
   * @param problem why the choice cannot be printed, or {@code null}
   * @param sheet address of the sheet to print, or {@code null}
   */
  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadBags(
      LoanView loan,
      List<Bag> bags,
      List<Option> stocks,
      List<Option> symbols,
      Form form,
      String problem,
      String sheet,
      List<String> pages)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadBagSheet(String stock, List<String> pages) implements TemplateInstance {}

  @GET
  public TemplateInstance page(@PathParam("id") String id, @Context UriInfo uri) {
    Long loanId = mine(id);
    Form form = form(uri);
    List<Bag> bags = bags(loanId, form);
    String problem = null;
    List<String> pages = List.of();
    try {
      pages = bags.isEmpty() ? List.of() : pages(loanId, bags, form);
    } catch (IllegalArgumentException why) {
      problem = why.getMessage();
    }
    String query = uri.getRequestUri().getRawQuery();
    return new PadBags(
        loans.byId(loanId),
        bags,
        stock.all().stream().map(one -> new Option(one.key(), one.name())).toList(),
        List.of(
            new Option("square", "square of dots (camera scanner)"),
            new Option("bars", "bars (any scanner)")),
        form,
        problem,
        problem == null && !bags.isEmpty()
            ? "/loans/" + id + "/pad-bags/sheet" + (query == null ? "" : "?" + query)
            : null,
        pages);
  }

  /** The sheet alone, at its true size. */
  @GET
  @Path("sheet")
  public TemplateInstance sheet(@PathParam("id") String id, @Context UriInfo uri) {
    Long loanId = mine(id);
    Form form = form(uri);
    try {
      return new PadBagSheet(form.value("stock"), pages(loanId, bags(loanId, form), form));
    } catch (IllegalArgumentException why) {
      throw new NotFound(why.getMessage());
    }
  }

  private Long mine(String id) {
    Long loanId = Ids.of(id, "loan");
    signedIn.requireLocation(loans.locationOf(loanId));
    return loanId;
  }

  private Form form(UriInfo uri) {
    return Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()))
        .prefill("stock", stock.all().get(0).key())
        .prefill("symbol", "square")
        .prefill("used", "0");
  }

  private List<Bag> bags(Long loanId, Form form) {
    Set<String> chosen = Set.copyOf(form.values("set"));
    return worn.inUse(loanId).stream()
        .map(
            set ->
                new Bag(
                    set.id(),
                    set.padName()
                        + (set.placement() == null ? "" : ", " + set.placement())
                        + ", opened "
                        + Days.shortly(set.openedOn()),
                    chosen.isEmpty() || chosen.contains(String.valueOf(set.id())),
                    set))
        .toList();
  }

  private List<String> pages(Long loanId, List<Bag> bags, Form form) {
    PatientView patient = patients.byId(Long.valueOf(loans.byId(loanId).patientId()));
    LabelStock chosen = stock.of(form.value("stock"));
    SymbolKind kind =
        form.value("symbol").equals("bars") ? SymbolKind.CODE_128 : SymbolKind.DATA_MATRIX;
    Integer used = form.optionalWhole("used", "Labels gone from the first sheet", 0, 999);
    List<Label> labels = new ArrayList<>();
    double x = 1;
    for (Bag bag : bags) {
      if (bag.chosen()) {
        Label label = label(patient.chartNumber(), bag.set(), kind);
        x = Math.min(x, LabelDrawing.widestX(label, chosen.size()).orElse(0.25));
        labels.add(label);
      }
    }
    return LabelSheet.pages(labels, chosen, used == null ? 0 : used, x);
  }

  static Label label(String chartNumber, PadSetView set, SymbolKind kind) {
    List<String> lines = new ArrayList<>();
    lines.add(chartNumber);
    lines.add(set.code() + (set.lot() == null ? "" : ", lot " + set.lot()));
    lines.add("opened " + set.openedOn());
    lines.add("not after " + set.lastUsableOn());
    return new Label(kind, chartNumber, false, lines, "Pad bag of chart " + chartNumber);
  }
}
