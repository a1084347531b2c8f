package clinic.stimshelf.access;

import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Response;
import org.jboss.resteasy.reactive.server.ServerRequestFilter;
import org.jboss.resteasy.reactive.server.WithFormRead;
import org.jboss.resteasy.reactive.server.spi.ResteasyReactiveContainerRequestContext;

/**
 * Lets nobody else's page act with a person's cookie. A changing call that a cookie vouches for
 * must bring the session's form token; what brings its own Authorization needs none. Whatever the
 * browser says comes from another site is refused in any case.
 */
class ForgeryGuard {
  static final String FIELD = "csrf";
  static final String HEADER = "X-CSRF";

  @Inject Turned turned;

  @ServerRequestFilter
  @WithFormRead
  public Response guard(
      ResteasyReactiveContainerRequestContext context, RoutingContext call, ResourceInfo target) {
    HttpServerRequest request = call.request();
    if (Wire.isSafe(context.getMethod())) {
      return null;
    }
    if (Wire.foreign(request)) {
      return turned.foreign(call);
    }
    String session = Wire.sessionCookie(request);
    if (request.getHeader("Authorization") != null || session == null || open(target)) {
      return null;
    }
    String shown = request.getHeader(HEADER);
    if (shown == null) {
      shown = SentForm.of(context).first(FIELD);
    }
    return Secrets.same(shown, Secrets.formToken(session))
        ? null
        : turned.withoutToken(call, SentForm.of(context));
  }

  /** What is open to everybody acts for nobody, so there is nothing to forge but the sender. */
  private static boolean open(ResourceInfo target) {
    return target.getResourceMethod().isAnnotationPresent(PermitAll.class);
  }
}
