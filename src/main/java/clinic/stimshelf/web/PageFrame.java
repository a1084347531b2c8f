package clinic.stimshelf.web;

import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.RequestScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.inject.Named;
import java.net.URI;
import java.util.Comparator;
import java.util.List;

/** The frame as templates read it: {@code inject:frame}. */
@Named("frame")
@RequestScoped
public class PageFrame {
  @Inject Frame frame;

  @Inject @Any Instance<Way> ways;

  @Inject Instance<RoutingContext> routing;

  /** A link of the navigation. */
  public record Link(String label, String href, boolean current) {}

  public Frame now() {
    return frame;
  }

  public String csrf() {
    return frame.csrf();
  }

  /** The pages this person has a use for, in order. */
  public List<Link> ways() {
    String path = path();
    List<Way> mine =
        ways.stream()
            .filter(way -> way.roles().stream().anyMatch(frame::has))
            .sorted(Comparator.comparingInt(Way::order))
            .toList();
    return mine.stream()
        .map(way -> new Link(way.label(), way.href(), belongs(path, way.href())))
        .toList();
  }

  /**
   * The path of the page to come back to, without its query; of a form's answer, the form's page.
   */
  public String path() {
    if (!routing.isResolvable()) {
      return "/";
    }
    String method = routing.get().request().method().name();
    return method.equals("GET") || method.equals("HEAD")
        ? routing.get().normalizedPath()
        : pathOf(routing.get().request().getHeader("Referer"));
  }

  private static String pathOf(String address) {
    try {
      String path = address == null ? null : URI.create(address).getPath();
      return path == null || path.isEmpty() ? "/" : path;
    } catch (IllegalArgumentException unreadable) {
      return "/";
    }
  }

  private static boolean belongs(String path, String href) {
    return path.equals(href) || (href.length() > 1 && path.startsWith(href + "/"));
  }
}
