package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Staff and their accounts, for managers. */
@Path("/api/staff")
@Produces(MediaType.APPLICATION_JSON)
@RolesAllowed(Roles.MANAGER)
class StaffApi {
  @Inject Staff staff;

  @Inject ManagedStaff managed;

  @Inject Accounts accounts;

  @Inject Locations locations;

  @Inject SignedIn signedIn;

  /** A staff member; locations by code. */
  record StaffJson(
      String id,
      String ref,
      String name,
      String initials,
      Credential credential,
      String licenseNumber,
      LocalDate licenseEndsOn,
      String role,
      String username,
      boolean passwordSet,
      boolean active,
      List<String> locations,
      int version) {}

  /** A staff member as sent. */
  record StaffEntry(
      String ref,
      String name,
      String initials,
      Credential credential,
      String licenseNumber,
      LocalDate licenseEndsOn,
      String role,
      String username,
      List<String> locations) {}

  /** A code that sets a password once. */
  record CodeJson(String code) {}

  @GET
  public Page<StaffJson> list(@BeanParam Paging paging) {
    Map<Long, String> codes = codes();
    return paging.cut(managed.mine()).map(one -> json(one, codes));
  }

  @GET
  @Path("{id}")
  public StaffJson one(@PathParam("id") String id) {
    return json(managed.byId(id), codes());
  }

  @POST
  @Consumes(MediaType.APPLICATION_JSON)
  public Response add(StaffEntry entry) {
    Long id = staff.add(read(entry, List.of()));
    return Response.created(URI.create("/api/staff/" + id))
        .entity(json(staff.byId(id), codes()))
        .build();
  }

  @PUT
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("{id}")
  public StaffJson change(
      @PathParam("id") String id, @HeaderParam("If-Match") String tag, StaffEntry entry) {
    StaffView before = managed.byId(id);
    List<Long> elsewhere =
        before.locationIds().stream().filter(place -> !signedIn.mayActAt(place)).toList();
    return json(staff.change(before.id(), version(tag), read(entry, elsewhere)), codes());
  }

  @POST
  @Path("{id}/disable")
  public StaffJson disable(@PathParam("id") String id) {
    return json(staff.disable(managed.byId(id).id()), codes());
  }

  @POST
  @Path("{id}/enable")
  public StaffJson enable(@PathParam("id") String id) {
    return json(staff.enable(managed.byId(id).id()), codes());
  }

  @POST
  @Path("{id}/code")
  public CodeJson code(@PathParam("id") String id) {
    return new CodeJson(accounts.newCode(managed.byId(id).id()));
  }

  private NewStaff read(StaffEntry entry, List<Long> kept) {
    if (entry == null) {
      throw new Malformed("body", "A staff member is missing in the body.");
    }
    List<Long> places = new ArrayList<>(kept);
    if (entry.locations() != null) {
      entry.locations().forEach(code -> places.add(signedIn.locationOr(code)));
    }
    return new NewStaff(
        entry.ref(),
        entry.name(),
        entry.initials(),
        entry.credential(),
        entry.licenseNumber(),
        entry.licenseEndsOn(),
        entry.role(),
        entry.username(),
        places);
  }

  private static Integer version(String tag) {
    if (tag == null || tag.equals("*")) {
      return null;
    }
    try {
      return Integer.valueOf(tag.replace("W/", "").replace("\"", "").replace("v", ""));
    } catch (NumberFormatException notOurs) {
      throw new Stale("If-Match names no version of this entry.");
    }
  }

  private Map<Long, String> codes() {
    return locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
  }

  private static StaffJson json(StaffView view, Map<Long, String> codes) {
    return new StaffJson(
        String.valueOf(view.id()),
        view.ref(),
        view.name(),
        view.initials(),
        view.credential(),
        view.licenseNumber(),
        view.licenseEndsOn(),
        view.role(),
        view.username(),
        view.passwordSet(),
        view.active(),
        view.locationIds().stream().map(codes::get).toList(),
        view.version());
  }
}
