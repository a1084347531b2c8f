package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The manager's pages of the fleet: new units, kinds, storage spots. */
@Path("/")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
@Retried
class FleetPages {
  private static final int MOST_ALIKE = 4;

  @Inject ShelfKeeping keeping;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NewUnitForm(
      String place, List<Option> kinds, List<Option> spots, List<Option> purposes, Form form)
      implements TemplateInstance {}

  /** A kind of part in the form of a kit. */
  public record PartRow(Part part) {
    public String count() {
      return "count-" + part.word();
    }

    public String name() {
      return "name-" + part.word();
    }

    public String owed() {
      return "owed-" + part.word();
    }

    public String words() {
      return part.words();
    }
  }

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record KindList(List<KindView> kinds) implements TemplateInstance {}

  /**
   * The form of a kind.
   *
   * @param code of the kind that is changed, empty for a new one
   */
  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record KindForm(String code, List<Option> outputs, List<PartRow> rows, Form form)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record SpotList(String place, List<SpotView> spots, Form form) implements TemplateInstance {}

  @GET
  @Path("new-unit")
  public TemplateInstance newUnit() {
    return newUnit(Form.empty().prefill("tag", keeping.proposedTag()).prefill("purpose", "both"));
  }

  @POST
  @Path("new-unit")
  public Response addUnit(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      LocalDate nextTest = form.optionalDay("nextTestOn", "The next safety test");
      LocalDate acquired = form.optionalDay("acquiredOn", "The day it was acquired");
      Integer counter = form.optionalWhole("useCounter", "The use counter", 0, 100_000_000);
      String owner = form.optionalText("ownerWords", "The owner's words", 200);
      Long spot = form.read("spot", Long::valueOf, id -> true, "Choose a spot of the list.");
      form.throwIfWrong();
      String tag =
          keeping.addUnit(
              new NewUnit(
                  form.value("tag"),
                  form.value("serial"),
                  form.value("kind"),
                  signedIn.locationOr(null),
                  spot,
                  form.value("purpose"),
                  nextTest,
                  acquired,
                  counter,
                  owner));
      return Back.to("/units/" + tag + "?done=added");
    } catch (Refusal refusal) {
      return Back.again(422, newUnit(form.ok() ? form.refused(refusal) : form));
    }
  }

  @GET
  @Path("unit-kinds")
  public TemplateInstance kinds() {
    return new KindList(keeping.kinds());
  }

  @GET
  @Path("unit-kinds/form")
  public TemplateInstance kindForm(@QueryParam("code") String code) {
    return code == null || code.isBlank()
        ? kindForm("", Form.empty().prefill("count-lead-set", 1).prefill("count-charger", 1))
        : kindForm(code, filled(keeping.kind(code)));
  }

  @POST
  @Path("unit-kinds")
  public Response addKind(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      keeping.addKind(kind(form, form.value("code")));
      return Back.to("/unit-kinds");
    } catch (Refusal refusal) {
      return Back.again(422, kindForm("", form.ok() ? form.refused(refusal) : form));
    }
  }

  @POST
  @Path("unit-kinds/{code}")
  public Response changeKind(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      keeping.changeKind(code, kind(form, code));
      return Back.to("/unit-kinds");
    } catch (Refusal refusal) {
      return Back.again(422, kindForm(code, form.ok() ? form.refused(refusal) : form));
    }
  }

  @GET
  @Path("storage-spots")
  public TemplateInstance spots() {
    return spots(Form.empty());
  }

  @POST
  @Path("storage-spots")
  public Response addSpot(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      int position = form.whole("position", "The position", 1, 999);
      form.throwIfWrong();
      keeping.addSpot(signedIn.locationOr(null), form.value("name"), position);
      return Back.to("/storage-spots");
    } catch (Refusal refusal) {
      return Back.again(422, spots(form.ok() ? form.refused(refusal) : form));
    }
  }

  @POST
  @Path("storage-spots/{id}/drop")
  public Response dropSpot(@PathParam("id") Long id) {
    try {
      signedIn.requireLocation(keeping.spot(id).locationId());
      keeping.dropSpot(id);
      return Back.to("/storage-spots");
    } catch (Refusal refusal) {
      return Back.again(422, spots(Form.empty().refused(refusal)));
    }
  }

  private NewUnitForm newUnit(Form form) {
    Long locationId = signedIn.locationOr(null);
    return new NewUnitForm(
        locations.byId(locationId).name(),
        keeping.kinds().stream().map(kind -> new Option(kind.code(), kind.name())).toList(),
        keeping.spots(locationId).stream()
            .map(spot -> new Option(String.valueOf(spot.id()), spot.name()))
            .toList(),
        Arrays.stream(Purpose.values()).map(p -> new Option(p.word(), p.words())).toList(),
        form);
  }

  private static KindForm kindForm(String code, Form form) {
    return new KindForm(
        code,
        Arrays.stream(OutputScale.values()).map(o -> new Option(o.word(), o.words())).toList(),
        Arrays.stream(Part.values()).map(PartRow::new).toList(),
        form);
  }

  private SpotList spots(Form form) {
    Long locationId = signedIn.locationOr(null);
    List<SpotView> spots = keeping.spots(locationId);
    int next = spots.stream().mapToInt(SpotView::position).max().orElse(0) + 1;
    return new SpotList(locations.byId(locationId).name(), spots, form.prefill("position", next));
  }

  private static KindView kind(Form form, String code) {
    int channels = form.whole("channels", "Channels", 1, 16);
    Integer chargeDays = form.optionalWhole("chargeDays", "Days until a charge lapses", 1, 365);
    BigDecimal price =
        form.optionalNumber("price", "The price", BigDecimal.ZERO, new BigDecimal("99999999"));
    String cells = form.optionalText("cellType", "The cell type", 80);
    List<KindView.PartLine> contents = new ArrayList<>();
    for (Part part : Part.values()) {
      PartRow row = new PartRow(part);
      Integer count = form.optionalWhole(row.count(), "How many: " + part.words(), 0, MOST_ALIKE);
      String name = form.has(row.name()) ? form.value(row.name()) : part.words();
      for (int i = 0; count != null && i < count; i++) {
        contents.add(new KindView.PartLine(part, name, !form.ticked(row.owed())));
      }
    }
    form.throwIfWrong();
    return new KindView(
        null,
        code,
        form.value("name"),
        channels,
        form.value("connector"),
        OutputScale.byWord(form.value("output")),
        chargeDays,
        cells,
        price,
        form.ticked("lendsOut"),
        contents);
  }

  private static Form filled(KindView kind) {
    Form form =
        Form.empty()
            .prefill("name", kind.name())
            .prefill("channels", kind.channels())
            .prefill("connector", kind.connector())
            .prefill("output", kind.output().word())
            .prefill("chargeDays", kind.chargeDays())
            .prefill("cellType", kind.cellType())
            .prefill("price", kind.price() == null ? null : kind.price().toPlainString())
            .prefill("lendsOut", kind.lendsOut() ? "yes" : null);
    for (Part part : Part.values()) {
      List<KindView.PartLine> lines =
          kind.contents().stream().filter(line -> line.part() == part).toList();
      if (!lines.isEmpty()) {
        PartRow row = new PartRow(part);
        form.prefill(row.count(), lines.size())
            .prefill(row.name(), lines.get(0).name())
            .prefill(row.owed(), lines.get(0).essential() ? null : "yes");
      }
    }
    return form;
  }
}
