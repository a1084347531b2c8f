package clinic.stimshelf.access;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.MultiMap;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpMethod;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import io.vertx.ext.web.handler.BodyHandler;
import io.vertx.ext.web.impl.RoutingContextInternal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.Locale;
import java.util.regex.Pattern;

/** What happens to every request before anything else: its answer gets the security headers. */
@ApplicationScoped
class Doorstep {
  /** Ahead of the framework's own filters, which begin at 200. */
  private static final int HEADERS_FIRST = 1000;

  private static final int BODY_NEXT = 900;
  private static final long LONGEST_FORM = 1024 * 1024L;
  private static final String CONTENT_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src"
          + " 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors"
          + " 'none'";
  private static final Pattern ASSET =
      Pattern.compile(
          "/(?:webjars/.+|_static/.+|[^/]+\\.(?:css|js|svg|png|ico|woff2|webmanifest))");
  private static final Pattern FEED = Pattern.compile("/calendar/[^/]+");
  private static final Pattern VERSIONED = Pattern.compile("/[^?]*\\d+\\.\\d+\\.\\d+/.*");

  private final BodyHandler forms = BodyHandler.create(false).setBodyLimit(LONGEST_FORM);

  void register(@Observes Filters filters) {
    filters.register(
        call -> {
          call.addHeadersEndHandler(ignored -> secure(call));
          call.next();
        },
        HEADERS_FIRST);
    filters.register(this::readForm, BODY_NEXT);
    filters.register(Doorstep::nothingIsAForm, BODY_NEXT - 1);
  }

  /** A page's form is read at once, so that it can be kept if nobody is signed in any more. */
  private void readForm(RoutingContext call) {
    HttpServerRequest request = call.request();
    String type = request.getHeader("Content-Type");
    if (!request.isEnded()
        && request.method().equals(HttpMethod.POST)
        && type != null
        && type.toLowerCase(Locale.ROOT).startsWith("application/x-www-form-urlencoded")
        && !Wire.isApi(call.normalizedPath())) {
      request.resume();
      forms.handle(call);
    } else {
      call.next();
    }
  }

  /** Whoever reads the body later must not wait for what was read already, even if it was empty. */
  private static void nothingIsAForm(RoutingContext call) {
    if (call.request().isEnded()
        && call.body().buffer() == null
        && call instanceof RoutingContextInternal inner) {
      inner.setBody(Buffer.buffer());
    }
    call.next();
  }

  private static void secure(RoutingContext call) {
    MultiMap headers = call.response().headers();
    headers.set("Content-Security-Policy", CONTENT_POLICY);
    headers.set("X-Content-Type-Options", "nosniff");
    if (!headers.contains("Referrer-Policy")) {
      // A page whose address is itself a key asks for less.
      headers.set("Referrer-Policy", "same-origin");
    }
    headers.set("Permissions-Policy", "camera=(self), geolocation=(), microphone=()");
    headers.set("Cross-Origin-Opener-Policy", "same-origin");
    headers.set("Cross-Origin-Resource-Policy", "same-origin");
    if (Wire.secure(call.request())) {
      headers.set("Strict-Transport-Security", "max-age=63072000; includeSubDomains");
    }
    String path = call.normalizedPath();
    int status = call.response().getStatusCode();
    boolean asset = ASSET.matcher(path).matches() && (status == 200 || status == 304);
    if (FEED.matcher(path).matches()) {
      // Kept by the calendar that asks, which asks each time whether it changed.
      headers.set("Cache-Control", "private, no-cache");
      headers.set("Referrer-Policy", "no-referrer");
    } else if (!asset) {
      headers.set("Cache-Control", "no-store");
    } else if (!VERSIONED.matcher(path).matches()) {
      // Its name stays when a new release changes it: ask each time, most often get "unchanged".
      headers.set("Cache-Control", "no-cache");
    }
  }
}
