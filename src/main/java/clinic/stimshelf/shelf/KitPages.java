package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.NotFound;
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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.List;
import java.util.function.BiConsumer;

/** The parts of a unit's kit. */
@Path("/units/{tag}/kit")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
@Retried
class KitPages {
  @Inject Shelf shelf;
  @Inject Kits kits;
  @Inject EventTimes times;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UnitKit(UnitView unit, List<Option> parts, Form form) implements TemplateInstance {}

  @GET
  public TemplateInstance page(@PathParam("tag") String tag) {
    return page(mine(tag), Form.empty());
  }

  @POST
  public Response add(@PathParam("tag") String tag, MultivaluedMap<String, String> typed) {
    UnitView unit = mine(tag);
    Form form = Form.of(typed);
    try {
      Part part = Part.byWord(form.value("part"));
      if (part == null) {
        form.wrong("part", "Choose what it is.");
      }
      form.throwIfWrong();
      String name = form.has("name") ? form.value("name") : part.words();
      kits.add(
          unit.tag(),
          new Kits.NewPart(part, name, form.value("tag"), !form.ticked("owed")),
          times.now());
      return Back.to(form, "/units/" + unit.tag() + "/kit");
    } catch (Refusal refusal) {
      return Back.again(422, page(unit, form.ok() ? form.refused(refusal) : form));
    }
  }

  @POST
  @Path("{item}/missing")
  public Response missing(
      @PathParam("tag") String tag,
      @PathParam("item") Long item,
      MultivaluedMap<String, String> typed) {
    return set(tag, item, typed, kits::missing);
  }

  @POST
  @Path("{item}/back")
  public Response back(
      @PathParam("tag") String tag,
      @PathParam("item") Long item,
      MultivaluedMap<String, String> typed) {
    return set(tag, item, typed, kits::back);
  }

  @POST
  @Path("{item}/remove")
  public Response remove(
      @PathParam("tag") String tag,
      @PathParam("item") Long item,
      MultivaluedMap<String, String> typed) {
    return set(tag, item, typed, kits::remove);
  }

  private Response set(
      String tag,
      Long item,
      MultivaluedMap<String, String> typed,
      BiConsumer<Long, Happened> change) {
    UnitView unit = mine(tag);
    if (unit.contents().stream().noneMatch(part -> part.id().equals(item))) {
      throw new NotFound("There is no such part in this kit.");
    }
    change.accept(item, times.now());
    return Back.to(Form.of(typed), "/units/" + unit.tag() + "/kit");
  }

  private UnitView mine(String tag) {
    UnitView unit = shelf.byTag(tag);
    signedIn.requireLocation(unit.locationId());
    return unit;
  }

  private static UnitKit page(UnitView unit, Form form) {
    return new UnitKit(
        unit,
        Arrays.stream(Part.values()).map(part -> new Option(part.word(), part.words())).toList(),
        form);
  }
}
