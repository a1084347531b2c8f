package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Settings, Staff: who works here, what they may sign and do, and their way in. */
@Path("/settings/staff")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class StaffPages {
  @Inject Staff staff;

  @Inject ManagedStaff managed;

  @Inject Accounts accounts;

  @Inject Locations locations;

  @Inject SignedIn signedIn;

  /** A line of the list. */
  record Line(StaffView staff, String where, boolean licenseOver) {}

  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record StaffList(List<Line> lines) implements TemplateInstance {}

  /**
   * One staff member.
   *
   * @param staff {@code null} for a new one
   * @param code a one-time code just made, shown this once; else {@code null}
   */
  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record StaffEntry(
      StaffView staff,
      Form form,
      List<Option> roles,
      List<Option> credentials,
      List<Option> places,
      String code)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list() {
    Map<Long, LocationView> places =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, one -> one));
    Long here = signedIn.locationId();
    LocalDate today = here == null ? null : locations.today(here);
    return new StaffList(
        managed.mine().stream()
            .map(
                one ->
                    new Line(
                        one,
                        one.locationIds().stream()
                            .map(id -> places.get(id).name())
                            .collect(Collectors.joining(", ")),
                        today != null && !one.licenseRuns(today)))
            .toList());
  }

  @GET
  @Path("new")
  public TemplateInstance blank() {
    return entry(null, Form.empty(), null);
  }

  @POST
  public Response add(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      NewStaff entry = read(form, List.of());
      form.throwIfWrong();
      return Response.seeOther(URI.create("/settings/staff/" + staff.add(entry))).build();
    } catch (Refusal refusal) {
      return html(422, entry(null, again(form, refusal), null));
    }
  }

  @GET
  @Path("{id}")
  public TemplateInstance one(@PathParam("id") String id) {
    StaffView view = managed.byId(id);
    return entry(view, filled(view), null);
  }

  @POST
  @Path("{id}")
  public Response change(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    StaffView view = managed.byId(id);
    Form form = Form.of(typed);
    try {
      NewStaff entry = read(form, elsewhere(view));
      form.throwIfWrong();
      staff.change(view.id(), form.optionalWhole("version", "The version", 0, 1_000_000), entry);
      return Response.seeOther(URI.create("/settings/staff")).build();
    } catch (Refusal refusal) {
      return html(422, entry(view, again(form, refusal), null));
    } catch (Stale stale) {
      form.wrong("name", stale.getMessage());
      return html(409, entry(view, form, null));
    }
  }

  @POST
  @Path("{id}/disable")
  public Response disable(@PathParam("id") String id) {
    StaffView view = managed.byId(id);
    try {
      staff.disable(view.id());
      return Response.seeOther(URI.create("/settings/staff/" + id)).build();
    } catch (Refusal refusal) {
      return html(422, entry(view, filled(view).refused(refusal), null));
    }
  }

  @POST
  @Path("{id}/enable")
  public Response enable(@PathParam("id") String id) {
    staff.enable(managed.byId(id).id());
    return Response.seeOther(URI.create("/settings/staff/" + id)).build();
  }

  /** The code is shown in the answer itself, because nothing keeps it. */
  @POST
  @Path("{id}/code")
  public Response code(@PathParam("id") String id) {
    StaffView view = managed.byId(id);
    try {
      return html(200, entry(view, filled(view), accounts.newCode(view.id())));
    } catch (Refusal refusal) {
      return html(422, entry(view, filled(view).refused(refusal), null));
    }
  }

  private NewStaff read(Form form, List<Long> kept) {
    List<Long> places = new ArrayList<>(kept);
    form.values("locations").forEach(code -> places.add(signedIn.locationOr(code)));
    return new NewStaff(
        form.value("ref"),
        form.value("name"),
        form.value("initials"),
        form.read("credential", Credential::of, credential -> true, "Choose a credential."),
        form.value("licenseNumber"),
        form.optionalDay("licenseEndsOn", "The license’s last day"),
        form.value("role"),
        form.value("username"),
        places);
  }

  /** Locations that this manager does not see stay as they are. */
  private List<Long> elsewhere(StaffView view) {
    return view.locationIds().stream().filter(id -> !signedIn.mayActAt(id)).toList();
  }

  /** What could not be read and what the rules say, all at once. */
  private static Form again(Form form, Refusal refusal) {
    return form.ok() ? form.refused(refusal) : form;
  }

  private Form filled(StaffView view) {
    MultivaluedMap<String, String> typed = new MultivaluedHashMap<>();
    locations.all().stream()
        .filter(one -> view.locationIds().contains(one.id()))
        .forEach(one -> typed.add("locations", one.code()));
    return Form.of(typed)
        .prefill("ref", view.ref())
        .prefill("name", view.name())
        .prefill("initials", view.initials())
        .prefill("credential", view.credential().word())
        .prefill("licenseNumber", view.licenseNumber())
        .prefill("licenseEndsOn", view.licenseEndsOn())
        .prefill("role", view.role())
        .prefill("username", view.username());
  }

  private StaffEntry entry(StaffView view, Form form, String code) {
    List<Option> places =
        locations.all().stream()
            .filter(one -> signedIn.mayActAt(one.id()))
            .map(one -> new Option(one.code(), one.name()))
            .toList();
    return new StaffEntry(
        view,
        form,
        Stream.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER)
            .map(role -> new Option(role, role.replace('-', ' ')))
            .toList(),
        Arrays.stream(Credential.values()).map(one -> new Option(one.word(), one.label())).toList(),
        places,
        code);
  }

  private static Response html(int status, TemplateInstance page) {
    return Response.status(status).type(Turned.HTML).entity(page.render()).build();
  }
}
