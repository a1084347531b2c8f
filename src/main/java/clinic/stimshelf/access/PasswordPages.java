package clinic.stimshelf.access;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Refusal;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.NewCookie;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.function.Function;

/** The two pages that a one-time code opens: the first account, and setting a password. */
@Path("/")
@Produces(MediaType.TEXT_HTML)
@Blocking
class PasswordPages {
  @Inject Accounts accounts;

  @Inject SignIn signIn;

  @Inject Throttle throttle;

  @Inject AccessConfig config;

  @Inject RoutingContext call;

  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FirstAccountPage(Form form, boolean open) implements TemplateInstance {}

  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record SetPasswordPage(Form form) implements TemplateInstance {}

  @GET
  @Path("first-account")
  @PermitAll
  public TemplateInstance firstPage() {
    return new FirstAccountPage(Form.empty(), accounts.noneYet());
  }

  @POST
  @Path("first-account")
  @PermitAll
  public Response first(MultivaluedMap<String, String> typed) {
    return byCode(
        Form.of(typed),
        form ->
            accounts.first(
                form.value("code"), form.value("name"), form.value("username"), password(typed)),
        form -> new FirstAccountPage(form, accounts.noneYet()));
  }

  @GET
  @Path("set-password")
  @PermitAll
  public TemplateInstance setPage() {
    return new SetPasswordPage(Form.empty());
  }

  @POST
  @Path("set-password")
  @PermitAll
  public Response set(MultivaluedMap<String, String> typed) {
    return byCode(
        Form.of(typed),
        form -> accounts.setPassword(form.value("code"), password(typed)),
        SetPasswordPage::new);
  }

  /** Whoever shows the code and sets a password has proven who they are, and is signed in. */
  private Response byCode(
      Form form, Function<Form, StaffView> use, Function<Form, TemplateInstance> again) {
    String address = Wire.address(call.request());
    try {
      if (Wire.exposed(call.request()) && !config.plainHttp()) {
        throw NotLetIn.plain();
      }
      throttle.refuseAddress(address);
      StaffView proven = use.apply(form);
      String token = signIn.begin(proven, Wire.sessionCookie(call.request()));
      return Response.seeOther(URI.create("/"))
          .cookie(Wire.sessionCookie(call.request(), token, NewCookie.DEFAULT_MAX_AGE))
          .build();
    } catch (Refusal refusal) {
      if (refusal.reasons().stream().anyMatch(reason -> "code".equals(reason.field()))) {
        throttle.failedAddress(address);
      }
      return Response.status(422)
          .type(Turned.HTML)
          .entity(again.apply(form.refused(refusal)).render())
          .build();
    }
  }

  /** As typed: blanks at the ends belong to a password. */
  private static String password(MultivaluedMap<String, String> typed) {
    String password = typed == null ? null : typed.getFirst("password");
    return password == null ? "" : password;
  }
}
