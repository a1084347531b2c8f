package clinic.stimshelf.access;

import clinic.stimshelf.access.HeldForms.Field;
import clinic.stimshelf.web.Problem;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.NewCookie;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.Map;

/** The answers to calls that are turned away: a page for a person, problem+json for a script. */
@ApplicationScoped
class Turned {
  static final MediaType HTML = MediaType.TEXT_HTML_TYPE.withCharset("UTF-8");

  @Inject HeldForms held;

  @Inject AccessConfig config;

  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Away(String heading, String detail) implements TemplateInstance {}

  @CheckedTemplate(basePath = "access", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record KeptForm(String heading, String detail, String action, List<Field> fields, boolean held)
      implements TemplateInstance {}

  /** Another site sent this. Nothing of it is shown, so that no click can send it after all. */
  Response foreign(RoutingContext call) {
    return refused(
        call,
        403,
        "Not sent from here",
        "Another site tried to send this in your name. Nothing was changed.");
  }

  /** One of our own pages sent this, but an old one: what was typed comes back with a new token. */
  Response withoutToken(RoutingContext call, SentForm form) {
    if (Wire.isApi(call.normalizedPath()) || !Wire.own(call.request()) || !form.any()) {
      return refused(
          call,
          403,
          "Not sent from a page of this sign-in",
          "Nothing was changed. Open the page again and repeat the step; a script sends the"
              + " header X-CSRF with the session's token, or signs in with an access key.");
    }
    List<Field> fields =
        form.fields().stream().filter(f -> !f.name().equals(ForgeryGuard.FIELD)).toList();
    return Response.status(403)
        .type(HTML)
        .entity(
            new KeptForm(
                    "Send this again?",
                    "The page was opened before the last sign-in, so nothing was changed yet. Here"
                        + " is what was typed.",
                    call.request().uri(),
                    fields,
                    false)
                .render())
        .build();
  }

  /**
   * Nobody is signed in. A script hears so; a person is led to the sign-in and back, and what was
   * typed waits there.
   */
  Response signInFirst(RoutingContext call) {
    if (Wire.isApi(call.normalizedPath())) {
      return challenged(
          call,
          "Nobody is signed in. Send an access key (Authorization: Bearer) or name and password"
              + " (Basic).");
    }
    boolean fragment = call.request().getHeader("HX-Request") != null;
    String method = call.request().method().name();
    if (fragment) {
      return Response.status(401).header("HX-Redirect", Wire.signInFor(current(call))).build();
    }
    if (Wire.isSafe(method)) {
      return Response.seeOther(URI.create(Wire.signInFor(call.request().uri()))).build();
    }
    String page = page(call);
    SentForm form = SentForm.of(call);
    Response.ResponseBuilder answer = Response.seeOther(URI.create(Wire.signInFor(page)));
    if (form.any() && Wire.own(call.request())) {
      String token = held.keep(Wire.ownPath(call.request().uri()), page, form.fields());
      answer.cookie(keptCookie(call, token, config.keepForms()));
    }
    return answer.build();
  }

  Response notLetIn(RoutingContext call, NotLetIn why) {
    Response.ResponseBuilder answer =
        Response.fromResponse(
            why.status() == 401 && Wire.isApi(call.normalizedPath())
                ? challenged(call, why.getMessage())
                : refused(call, why.status(), "Not signed in", why.getMessage()));
    if (why.retryAfter() != null) {
      answer.header("Retry-After", why.retryAfter().toSeconds());
    }
    return answer.build();
  }

  Response refused(RoutingContext call, int status, String heading, String detail) {
    if (Wire.isApi(call.normalizedPath())) {
      return Response.status(status)
          .type(Problem.MEDIA_TYPE)
          .entity(Problem.of(status, heading, detail, List.of()))
          .build();
    }
    return Response.status(status).type(HTML).entity(new Away(heading, detail).render()).build();
  }

  static NewCookie keptCookie(RoutingContext call, String token, Duration life) {
    return new NewCookie.Builder(Wire.keptCookieName(call.request()))
        .value(token)
        .path("/")
        .maxAge((int) life.toSeconds())
        .httpOnly(true)
        .secure(Wire.secure(call.request()))
        .sameSite(NewCookie.SameSite.LAX)
        .build();
  }

  static NewCookie noKeptCookie(RoutingContext call) {
    return keptCookie(call, "", Duration.ZERO);
  }

  private Response challenged(RoutingContext call, String detail) {
    Response.ResponseBuilder answer =
        Response.fromResponse(refused(call, 401, "Not signed in", detail));
    for (Map.Entry<CharSequence, CharSequence> header :
        Map.<CharSequence, CharSequence>copyOf(Door.challenge(call.request())).entrySet()) {
      answer.header(header.getKey().toString(), header.getValue());
    }
    return answer.build();
  }

  /** The page on which a form stood, as its browser says. */
  private static String page(RoutingContext call) {
    return pathOf(call.request().getHeader("Referer"));
  }

  private static String current(RoutingContext call) {
    return pathOf(call.request().getHeader("HX-Current-URL"));
  }

  private static String pathOf(String address) {
    if (address == null) {
      return "/";
    }
    try {
      URI uri = URI.create(address);
      return Wire.ownPath(
          uri.getRawQuery() == null
              ? uri.getRawPath()
              : uri.getRawPath() + "?" + uri.getRawQuery());
    } catch (IllegalArgumentException unreadable) {
      return "/";
    }
  }
}
