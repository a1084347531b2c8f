package clinic.stimshelf.access;

import clinic.stimshelf.access.HeldForms.Kept;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.NewCookie;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.resteasy.reactive.RestForm;
import org.jboss.resteasy.reactive.RestQuery;

/** Signing in and out, changing the person, and what a screen shows of whom. */
@Path("/")
@Produces(MediaType.TEXT_HTML)
@Blocking
class SignInPages {
  private static final String KEPT_PAGE = "/kept";

  @Inject SignIn signIn;

  @Inject SignedIn signedIn;

  @Inject Sessions sessions;

  @Inject HeldForms held;

  @Inject Locations locations;

  @Inject AccessConfig config;

  @Inject Clock clock;

  @Inject RoutingContext call;

  @ConfigProperty(name = "stimshelf.demo", defaultValue = "false")
  boolean demo;

  /**
   * The sign-in form.
   *
   * @param says what stands against the last attempt, may be empty
   * @param person who is signed in while the person changes, else empty
   */
  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record SignInPage(
      String action,
      String next,
      String username,
      String says,
      String person,
      boolean kept,
      boolean demo)
      implements TemplateInstance {}

  @GET
  @Path("sign-in")
  @PermitAll
  public TemplateInstance page(@RestQuery String next) {
    return page("/sign-in", next, "", "");
  }

  @POST
  @Path("sign-in")
  @PermitAll
  public Response signIn(
      @RestForm String username, @RestForm String password, @RestForm String next) {
    return enter("/sign-in", username, password, next);
  }

  /** One step: the next person signs in on top of the one before and stays on the same page. */
  @GET
  @Path("change-person")
  @PermitAll
  public TemplateInstance changePage(@RestQuery String next) {
    return page("/change-person", next, "", "");
  }

  @POST
  @Path("change-person")
  @PermitAll
  public Response change(
      @RestForm String username, @RestForm String password, @RestForm String next) {
    return enter("/change-person", username, password, next);
  }

  /** Keeps what is typed on the open page while the person changes. */
  @POST
  @Path("change-person/keep")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response keep(@RestForm("_page") String page, @RestForm("_action") String action) {
    String next = Wire.ownPath(page);
    String token = held.keep(Wire.ownPath(action), next, SentForm.of(call).fields());
    return Response.seeOther(URI.create(Wire.changeFor(next)))
        .cookie(Turned.keptCookie(call, token, config.keepForms()))
        .build();
  }

  @POST
  @Path("sign-out")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response signOut() {
    signIn.end(Wire.sessionCookie(call.request()));
    return Response.seeOther(URI.create("/sign-in"))
        .cookie(Wire.sessionCookie(call.request(), "", 0))
        .header("Clear-Site-Data", "\"cache\"")
        .build();
  }

  @POST
  @Path("privacy")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response privacy(@RestForm String back) {
    Presence presence = signedIn.presence();
    if (presence.sessionId() != null) {
      sessions.blankNames(presence.sessionId(), !presence.privacy());
    }
    return Response.seeOther(URI.create(Wire.ownPath(back))).build();
  }

  @POST
  @Path("location")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response location(@RestForm String location, @RestForm String back) {
    Long wanted = locations.byCode(location == null ? "" : location.strip()).id();
    signedIn.requireLocation(wanted);
    if (signedIn.presence().sessionId() != null) {
      sessions.show(signedIn.presence().sessionId(), wanted);
    }
    return Response.seeOther(URI.create(Wire.ownPath(back))).build();
  }

  /** Seconds until an untouched session ends; asking by itself is no sign of life. */
  @GET
  @Path("session")
  @PermitAll
  @Produces(MediaType.APPLICATION_JSON)
  public Map<String, Object> session() {
    Presence presence = signedIn.presence();
    return Map.of("secondsLeft", presence == null ? 0 : secondsLeft(presence));
  }

  /** "Stay signed in". */
  @POST
  @Path("session")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  @Produces(MediaType.APPLICATION_JSON)
  public Map<String, Object> stay() {
    return session();
  }

  /** What was typed when the session ran out, to be sent now or dropped. */
  @GET
  @Path("kept")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response kept() {
    Optional<Kept> kept = held.find(Wire.keptCookie(call.request()));
    if (kept.isEmpty()) {
      return Response.seeOther(URI.create("/")).build();
    }
    return Response.ok(
            new Turned.KeptForm(
                    "Send what was typed?",
                    "The sign-in had run out before this was sent, so nothing was changed yet.",
                    kept.get().action(),
                    kept.get().fields(),
                    true)
                .render(),
            Turned.HTML)
        .build();
  }

  /** Sends the kept form on: the browser repeats this very body to where it was meant for. */
  @POST
  @Path("kept/send")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response send() {
    String token = Wire.keptCookie(call.request());
    String action = held.find(token).map(Kept::action).orElse(null);
    if (action == null) {
      return Response.seeOther(URI.create("/")).build();
    }
    held.drop(token);
    return Response.temporaryRedirect(URI.create(action)).cookie(Turned.noKeptCookie(call)).build();
  }

  @POST
  @Path("kept/drop")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response drop() {
    String token = Wire.keptCookie(call.request());
    String page = held.find(token).map(Kept::page).orElse("/");
    held.drop(token);
    return Response.seeOther(URI.create(Wire.ownPath(page)))
        .cookie(Turned.noKeptCookie(call))
        .build();
  }

  /** For the page that was open when the person changed: what to fill in again, once. */
  @POST
  @Path("kept/take")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  @Produces(MediaType.APPLICATION_JSON)
  public Response take() {
    String token = Wire.keptCookie(call.request());
    Optional<Kept> kept = held.find(token);
    held.drop(token);
    return Response.ok(
            Map.of(
                "action", kept.map(Kept::action).orElse(""),
                "fields", kept.map(Kept::fields).orElse(List.of())),
            MediaType.APPLICATION_JSON_TYPE)
        .cookie(Turned.noKeptCookie(call))
        .build();
  }

  private Response enter(String action, String username, String password, String next) {
    String typed = username == null ? "" : username;
    try {
      if (Wire.exposed(call.request()) && !config.plainHttp()) {
        throw NotLetIn.plain();
      }
      String token =
          signIn.begin(
              typed,
              password == null ? "" : password,
              Wire.address(call.request()),
              Wire.sessionCookie(call.request()));
      return Response.seeOther(URI.create(onward(action, next)))
          .cookie(Wire.sessionCookie(call.request(), token, NewCookie.DEFAULT_MAX_AGE))
          .build();
    } catch (NotLetIn why) {
      Response.ResponseBuilder answer =
          Response.status(why.status() == 401 ? 422 : why.status())
              .type(Turned.HTML)
              .entity(page(action, next, typed, why.getMessage()).render());
      if (why.retryAfter() != null) {
        answer.header("Retry-After", why.retryAfter().toSeconds());
      }
      return answer.build();
    }
  }

  /**
   * After a change of person the page opens again and fills itself; else what was kept is shown.
   */
  private String onward(String action, String next) {
    String own = Wire.ownPath(next);
    boolean kept = held.find(Wire.keptCookie(call.request())).isPresent();
    if (!kept) {
      return own;
    }
    return action.equals("/change-person") ? own + "#kept" : KEPT_PAGE;
  }

  private SignInPage page(String action, String next, String username, String says) {
    boolean changing = action.equals("/change-person") && signedIn.anybody();
    return new SignInPage(
        action,
        Wire.ownPath(next),
        username,
        says,
        changing ? signedIn.staff().name() : "",
        held.find(Wire.keptCookie(call.request())).isPresent(),
        demo);
  }

  private long secondsLeft(Presence presence) {
    return presence.signsOutAt() == null
        ? 0
        : Math.max(0, Duration.between(clock.instant(), presence.signsOutAt()).toSeconds());
  }
}
