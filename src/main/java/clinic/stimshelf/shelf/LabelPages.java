package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.codes.labels.Label;
import clinic.stimshelf.codes.labels.LabelDrawing;
import clinic.stimshelf.codes.labels.LabelSheet;
import clinic.stimshelf.codes.labels.LabelStock;
import clinic.stimshelf.codes.labels.SymbolKind;
import clinic.stimshelf.web.Form;
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
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;

/** Tags of a unit and its parts, printed on the label stock that the clinic bought. */
@Path("/units/{tag}/labels")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class LabelPages {
  @Inject Shelf shelf;
  @Inject SignedIn signedIn;
  @Inject TagStock stock;

  /** A thing that bears a tag. */
  public record Tagged(String tag, String words, boolean chosen) {}

  /**
   * The page.
   *
   * @param problem why the choice cannot be printed, or {@code null}
   * @param sheet address of the sheet to print, or {@code null}
   */
  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitLabels(
      UnitView unit,
      List<Tagged> things,
      List<Option> stocks,
      List<Option> symbols,
      Form form,
      String problem,
      String sheet,
      List<String> pages)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LabelSheetPrint(String title, String stock, List<String> pages)
      implements TemplateInstance {}

  @GET
  public TemplateInstance page(@PathParam("tag") String tag, @Context UriInfo uri) {
    UnitView unit = mine(tag);
    Form form = form(uri);
    List<Tagged> things = things(unit, form);
    String problem = null;
    List<String> pages = List.of();
    try {
      pages = pages(unit, things, form);
    } catch (IllegalArgumentException why) {
      problem = why.getMessage();
    }
    String query = uri.getRequestUri().getRawQuery();
    return new UnitLabels(
        unit,
        things,
        stock.all().stream().map(one -> new Option(one.key(), one.name())).toList(),
        List.of(
            new Option("square", "square of dots (camera scanner)"),
            new Option("bars", "bars (any scanner)")),
        form,
        problem,
        problem == null
            ? "/units/" + unit.tag() + "/labels/sheet" + (query == null ? "" : "?" + query)
            : null,
        pages);
  }

  /** The sheet alone, at its true size. */
  @GET
  @Path("sheet")
  public TemplateInstance sheet(@PathParam("tag") String tag, @Context UriInfo uri) {
    UnitView unit = mine(tag);
    Form form = form(uri);
    try {
      return new LabelSheetPrint(
          "Tags of unit " + unit.tag(), form.value("stock"), pages(unit, things(unit, form), form));
    } catch (IllegalArgumentException why) {
      throw new NotFound(why.getMessage());
    }
  }

  private Form form(UriInfo uri) {
    return Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()))
        .prefill("stock", stock.all().get(0).key())
        .prefill("symbol", "square")
        .prefill("used", "0");
  }

  private List<String> pages(UnitView unit, List<Tagged> things, Form form) {
    LabelStock chosen = stock.of(form.value("stock"));
    SymbolKind kind =
        form.value("symbol").equals("bars") ? SymbolKind.CODE_128 : SymbolKind.DATA_MATRIX;
    Integer used = form.optionalWhole("used", "Labels gone from the first sheet", 0, 999);
    List<Label> labels = new ArrayList<>();
    double x = 1;
    for (Tagged thing : things) {
      if (thing.chosen()) {
        Label label = Label.of(Tag.of(thing.tag()), kind, thing.words());
        OptionalDouble widest = LabelDrawing.widestX(label, chosen.size());
        x = Math.min(x, widest.orElse(0.25));
        labels.add(label);
      }
    }
    return LabelSheet.pages(labels, chosen, used == null ? 0 : used, x);
  }

  private static List<Tagged> things(UnitView unit, Form form) {
    Set<String> chosen = form.values("thing").stream().collect(Collectors.toSet());
    List<Tagged> things = new ArrayList<>();
    things.add(
        new Tagged(unit.tag(), unit.kindName(), chosen.isEmpty() || chosen.contains(unit.tag())));
    unit.contents().stream()
        .filter(item -> item.tag() != null)
        .forEach(
            item ->
                things.add(
                    new Tagged(
                        item.tag(),
                        item.name() + ", " + unit.tag(),
                        chosen.isEmpty() || chosen.contains(item.tag()))));
    return things;
  }

  private UnitView mine(String tag) {
    UnitView unit = shelf.byTag(tag);
    signedIn.requireLocation(unit.locationId());
    return unit;
  }
}
