package clinic.stimshelf.access;

import io.vertx.core.http.Cookie;
import io.vertx.core.http.HttpServerRequest;
import jakarta.ws.rs.core.NewCookie;
import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URLEncoder;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Set;

/** What a request says about where it comes from and how it travelled. */
final class Wire {
  private static final String SESSION = "stimshelf";
  private static final String KEPT = "stimshelf-kept";
  private static final String HOST_ONLY = "__Host-";
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS");

  private Wire() {}

  static boolean isApi(String path) {
    return path.equals("/api") || path.startsWith("/api/");
  }

  static boolean isSafe(String method) {
    return SAFE.contains(method);
  }

  static boolean secure(HttpServerRequest request) {
    return "https".equalsIgnoreCase(request.scheme());
  }

  /** Whether what is sent can be read on the way: plain HTTP that leaves this machine. */
  static boolean exposed(HttpServerRequest request) {
    return !secure(request) && !isLoopback(address(request));
  }

  static String address(HttpServerRequest request) {
    return request.remoteAddress() == null ? null : request.remoteAddress().hostAddress();
  }

  static boolean isLoopback(String host) {
    try {
      return host != null && InetAddress.getByName(host).isLoopbackAddress();
    } catch (UnknownHostException unknown) {
      return false;
    }
  }

  /** {@code __Host-} binds the cookie to https and this host; browsers refuse it on plain HTTP. */
  static String sessionCookieName(HttpServerRequest request) {
    return secure(request) ? HOST_ONLY + SESSION : SESSION;
  }

  static String keptCookieName(HttpServerRequest request) {
    return secure(request) ? HOST_ONLY + KEPT : KEPT;
  }

  static String sessionCookie(HttpServerRequest request) {
    return cookie(request, sessionCookieName(request));
  }

  /** The session's cookie: unreadable for scripts, and not sent along by other sites' forms. */
  static NewCookie sessionCookie(HttpServerRequest request, String token, int maxAge) {
    return new NewCookie.Builder(sessionCookieName(request))
        .value(token)
        .path("/")
        .maxAge(maxAge)
        .httpOnly(true)
        .secure(secure(request))
        .sameSite(NewCookie.SameSite.LAX)
        .build();
  }

  static String keptCookie(HttpServerRequest request) {
    return cookie(request, keptCookieName(request));
  }

  /**
   * Whether the browser says that another site sent this. A script says nothing, and needs no
   * cookie.
   */
  static boolean foreign(HttpServerRequest request) {
    String site = request.getHeader("Sec-Fetch-Site");
    if (site != null && !site.equals("same-origin") && !site.equals("none")) {
      return true;
    }
    String origin = request.getHeader("Origin");
    return origin != null && !sameHost(origin, request);
  }

  /** Whether the browser vouches that one of our own pages sent this. */
  static boolean own(HttpServerRequest request) {
    String origin = request.getHeader("Origin");
    return !foreign(request)
        && ("same-origin".equals(request.getHeader("Sec-Fetch-Site")) || origin != null);
  }

  /** Where to sign in for a page of our own, and come back. */
  static String signInFor(String uri) {
    String next = ownPath(uri);
    return next.equals("/")
        ? "/sign-in"
        : "/sign-in?next=" + URLEncoder.encode(next, StandardCharsets.UTF_8);
  }

  /** Where the person changes on a page of our own. */
  static String changeFor(String next) {
    return "/change-person?next=" + URLEncoder.encode(next, StandardCharsets.UTF_8);
  }

  /**
   * The path if it leads to one of our own pages, else the start page. What could lead elsewhere
   * ({@code //host}, a backslash, a scheme, control characters) is not taken.
   */
  static String ownPath(String wanted) {
    if (wanted == null
        || !wanted.startsWith("/")
        || wanted.startsWith("//")
        || wanted.indexOf('\\') >= 0
        || wanted.chars().anyMatch(c -> c < 0x20 || c == 0x7f)
        || wanted.length() > 2000) {
      return "/";
    }
    try {
      URI uri = new URI(wanted);
      boolean elsewhere = uri.isAbsolute() || uri.getRawAuthority() != null;
      String path = uri.getPath();
      boolean odd = path.contains("//") || path.contains("/..") || path.startsWith("/sign-in");
      return elsewhere || odd ? "/" : wanted;
    } catch (URISyntaxException unreadable) {
      return "/";
    }
  }

  private static String cookie(HttpServerRequest request, String name) {
    Cookie cookie = request.getCookie(name);
    return cookie == null || cookie.getValue().isEmpty() ? null : cookie.getValue();
  }

  private static boolean sameHost(String origin, HttpServerRequest request) {
    try {
      URI uri = new URI(origin);
      String host = uri.getHost();
      if (host == null || request.authority() == null) {
        return false;
      }
      return host.toLowerCase(Locale.ROOT)
              .equals(request.authority().host().toLowerCase(Locale.ROOT))
          && port(uri.getPort(), uri.getScheme())
              == port(request.authority().port(), uri.getScheme());
    } catch (URISyntaxException unreadable) {
      return false;
    }
  }

  private static int port(int port, String scheme) {
    return port > 0 ? port : "https".equalsIgnoreCase(scheme) ? 443 : 80;
  }
}
