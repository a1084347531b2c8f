package clinic.stimshelf.access;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.ext.web.RoutingContext;
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
import java.net.URI;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;

/** A person's own account: password and access keys. */
@Path("/account")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class AccountPages {
  @Inject Accounts accounts;

  @Inject AccessKeys keys;

  @Inject SignedIn signedIn;

  @Inject Locations locations;

  @Inject RoutingContext call;

  /**
   * The page.
   *
   * @param made the key just made, shown this once; else {@code null}
   * @param done what was just done, may be empty
   */
  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record AccountPage(
      StaffView me,
      List<AccessKeyView> keys,
      List<Option> roles,
      List<Option> places,
      ZoneId zone,
      Form password,
      Form key,
      String made,
      String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance page() {
    return page(Form.empty(), Form.empty(), null, "");
  }

  @POST
  @Path("password")
  public Response changePassword(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      accounts.change(
          typed(typed, "present"), typed(typed, "password"), Wire.address(call.request()));
      return html(200, page(Form.empty(), Form.empty(), null, "The password is changed."));
    } catch (Refusal refusal) {
      return html(422, page(form.refused(refusal), Form.empty(), null, ""));
    } catch (NotLetIn why) {
      form.wrong(
          "present", why.status() == 429 ? why.getMessage() : "This is not your present password.");
      Response.ResponseBuilder answer =
          Response.fromResponse(
              html(why.status() == 429 ? 429 : 422, page(form, Form.empty(), null, "")));
      if (why.retryAfter() != null) {
        answer.header("Retry-After", why.retryAfter().toSeconds());
      }
      return answer.build();
    }
  }

  @POST
  @Path("keys")
  public Response makeKey(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      List<Long> places =
          form.values("locations").stream().map(code -> signedIn.locationOr(code)).toList();
      AccessKeys.NewKey made = keys.make(form.value("name"), form.value("role"), places);
      return html(200, page(Form.empty(), Form.empty(), made.secret(), ""));
    } catch (Refusal refusal) {
      return html(422, page(Form.empty(), form.refused(refusal), null, ""));
    }
  }

  @POST
  @Path("keys/{id}/revoke")
  public Response revoke(@PathParam("id") String id) {
    keys.revoke(id);
    return Response.seeOther(URI.create("/account#keys")).build();
  }

  private AccountPage page(Form password, Form key, String made, String done) {
    StaffView me = signedIn.staff();
    List<LocationView> mine =
        locations.all().stream().filter(one -> signedIn.mayActAt(one.id())).toList();
    List<Option> roles =
        (signedIn.has(Roles.MANAGER)
                ? Stream.of(Roles.MANAGER, Roles.THERAPIST, Roles.FRONT_DESK)
                : Stream.of(me.role()))
            .map(role -> new Option(role, role.replace('-', ' ')))
            .toList();
    return new AccountPage(
        me,
        keys.list(),
        roles,
        mine.stream().map(one -> new Option(one.code(), one.name())).toList(),
        mine.isEmpty() ? ZoneOffset.UTC : mine.get(0).zone(),
        password,
        key,
        made,
        done);
  }

  private static String typed(MultivaluedMap<String, String> typed, String name) {
    String value = typed == null ? null : typed.getFirst(name);
    return value == null ? "" : value;
  }

  private static Response html(int status, TemplateInstance page) {
    return Response.status(status).type(Turned.HTML).entity(page.render()).build();
  }
}
