package clinic.stimshelf.pads;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
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
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Pad types: entering one and changing it. */
@Path("/pads/types")
@Produces(Shown.HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class PadTypePages {
  private static final BigDecimal DEAREST = new BigDecimal("99999999");

  @Inject PadCatalog catalog;

  /** The form; {@code type} is {@code null} for a new one. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadTypeEntry(Form form, PadTypeView type, List<Option> shapes)
      implements TemplateInstance {}

  @GET
  @Path("new")
  public TemplateInstance blank() {
    return page(Form.empty(), null);
  }

  @POST
  public Response add(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      String code = form.text("code", "The code", 32);
      NewPadType wanted = read(form, code);
      form.throwIfWrong();
      catalog.add(wanted);
      return Shown.to("/pads/" + code);
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), null));
    }
  }

  @GET
  @Path("{code}")
  public TemplateInstance one(@PathParam("code") String code) {
    PadTypeView type = catalog.byCode(code);
    return page(filled(type), type);
  }

  @POST
  @Path("{code}")
  public Response change(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    PadTypeView type = catalog.byCode(code);
    Form form = Form.of(typed);
    try {
      NewPadType wanted = read(form, code);
      Integer version = form.optionalWhole("version", "The version", 0, Integer.MAX_VALUE);
      form.throwIfWrong();
      catalog.change(code, wanted, version);
      return Shown.to("/pads/" + code);
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), type));
    } catch (Stale stale) {
      form.wrong("name", stale.getMessage());
      return Shown.refused(page(form, type));
    }
  }

  @POST
  @Path("{code}/use")
  public Response use(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    catalog.use(code, Form.of(typed).ticked("active"));
    return Shown.to("/pads/" + code);
  }

  private static NewPadType read(Form form, String code) {
    boolean supply = PadShape.SUPPLY.word().equals(form.value("shape"));
    return new NewPadType(
        null,
        code,
        form.text("name", "The name", 120),
        form.read("shape", PadShape::of, Objects::nonNull, "Choose a shape."),
        supply ? null : form.whole("widthMm", "The width", 5, 500),
        supply ? null : form.optionalWhole("heightMm", "The height", 5, 500),
        supply ? "none" : form.text("connector", "The connector", 40),
        form.whole("padsPerPack", "Pads a pack", 1, 1_000),
        form.optionalWhole("setsPerPouch", "Sets a pouch", 1, 100),
        form.optionalWhole("ratedUses", "Rated uses", 1, 1_000),
        form.optionalWhole("openDays", "Days", 1, 1_000),
        form.optionalNumber("price", "The price", BigDecimal.ZERO, DEAREST),
        form.optionalText("supplier", "The supplier", 120),
        form.optionalWhole("leadDays", "Days until delivery", 0, 365),
        form.optionalWhole("packsPerCase", "Packs a case", 1, 1_000),
        form.optionalWhole("minimumOrder", "The smallest order", 0, 100_000),
        form.optionalNumber("orderCost", "The cost of an order", BigDecimal.ZERO, DEAREST),
        form.optionalNumber("holdingCost", "The cost of keeping a pack", BigDecimal.ZERO, DEAREST),
        form.optionalWhole("shelfDays", "Days of shelf life", 1, 10_000));
  }

  private static Form filled(PadTypeView type) {
    return Form.empty()
        .prefill("name", type.name())
        .prefill("shape", type.shape().word())
        .prefill("widthMm", type.widthMm())
        .prefill("heightMm", type.heightMm())
        .prefill("connector", type.connector())
        .prefill("padsPerPack", type.padsPerPack())
        .prefill("setsPerPouch", type.setsPerPouch())
        .prefill("ratedUses", type.ratedUses())
        .prefill("openDays", type.openDays())
        .prefill("price", plain(type.price()))
        .prefill("supplier", type.supplier())
        .prefill("leadDays", type.leadDays())
        .prefill("packsPerCase", type.packsPerCase())
        .prefill("minimumOrder", type.minimumOrder())
        .prefill("orderCost", plain(type.orderCost()))
        .prefill("holdingCost", plain(type.holdingCost()))
        .prefill("shelfDays", type.shelfDays())
        .prefill("version", type.version());
  }

  /** At least cents, no zeros beyond. */
  private static String plain(BigDecimal amount) {
    if (amount == null) {
      return null;
    }
    BigDecimal stripped = amount.stripTrailingZeros();
    return stripped.setScale(Math.max(2, stripped.scale())).toPlainString();
  }

  private static TemplateInstance page(Form form, PadTypeView type) {
    return new PadTypeEntry(
        form,
        type,
        Arrays.stream(PadShape.values())
            .map(shape -> new Option(shape.word(), shape.words()))
            .toList());
  }
}
