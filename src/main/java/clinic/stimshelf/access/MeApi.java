package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;

/** Who calls, and the access keys of whoever calls. */
@Path("/api")
@Produces(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class MeApi {
  @Inject SignedIn signedIn;

  @Inject AccessKeys keys;

  @Inject Locations locations;

  /** Who calls: the role of this call, which a key may narrow. */
  record Me(
      String id,
      String name,
      String username,
      String role,
      Credential credential,
      List<String> locations) {}

  /** An access key as wished; without role the caller's own, without locations all of them. */
  record KeyEntry(String name, String role, List<String> locations) {}

  /** A new key; its secret is shown this once. */
  record KeyMade(String id, String name, String role, List<String> locations, String secret) {}

  @GET
  @Path("me")
  public Me me() {
    StaffView me = signedIn.staff();
    return new Me(
        String.valueOf(me.id()),
        me.name(),
        me.username(),
        signedIn.presence().role(),
        me.credential(),
        locations.all().stream()
            .filter(one -> signedIn.mayActAt(one.id()))
            .map(LocationView::code)
            .toList());
  }

  @GET
  @Path("access-keys")
  public Page<AccessKeyView> list(@BeanParam Paging paging) {
    return paging.cut(keys.list());
  }

  @POST
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("access-keys")
  public Response make(KeyEntry entry) {
    if (entry == null) {
      throw new Malformed("body", "A name for the key is missing in the body.");
    }
    List<Long> places =
        entry.locations() == null
            ? signedIn.locationIds()
            : entry.locations().stream().map(signedIn::locationOr).toList();
    String role = entry.role() == null ? signedIn.presence().role() : entry.role();
    AccessKeys.NewKey made = keys.make(entry.name(), role, places);
    AccessKeyView key = made.key();
    return Response.created(URI.create("/api/access-keys/" + key.id()))
        .entity(new KeyMade(key.id(), key.name(), key.role(), key.locations(), made.secret()))
        .build();
  }

  /** Revokes; the key stays listed. */
  @DELETE
  @Path("access-keys/{id}")
  public Response revoke(@PathParam("id") String id) {
    keys.revoke(id);
    return Response.noContent().build();
  }
}
