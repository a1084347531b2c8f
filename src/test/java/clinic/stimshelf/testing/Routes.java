package clinic.stimshelf.testing;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.annotation.security.DenyAll;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.HttpMethod;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.annotation.Annotation;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Every page and call the program answers, read from its classes, so that a new one is tested too.
 */
public final class Routes {
  private static final Path CLASSES = Path.of("target", "classes");

  private Routes() {}

  /**
   * One of them.
   *
   * @param roles who may; empty for everybody
   * @param named whether the class says who may
   * @param consumes the content type it takes, empty if none
   */
  public record Route(
      String method, String path, Set<String> roles, boolean named, String consumes, String where) {

    /** Whether anybody may, signed in or not. */
    public boolean open() {
      return named && roles.isEmpty();
    }

    public boolean isApi() {
      return path.startsWith("/api/");
    }

    public boolean reads() {
      return method.equals("GET") || method.equals("HEAD");
    }

    /** The path with something in the place of each variable. */
    public String concrete() {
      return path.replaceAll("\\{[^/}]*}", "1");
    }

    /** Calls it with a body it reads, so that the answer is about who calls. */
    public Response call(RequestSpecification request) {
      if (!consumes.isEmpty() && !reads()) {
        if (consumes.startsWith("multipart")) {
          request.multiPart("nothing", "");
        } else {
          request.contentType(consumes).body(consumes.contains("json") ? "{}" : "nothing=");
        }
      }
      return request.request(method, concrete());
    }

    @Override
    public String toString() {
      return method + " " + path;
    }
  }

  public static List<Route> all() {
    List<Route> routes = new ArrayList<>();
    for (Class<?> type : classes()) {
      if (type.isAnnotationPresent(jakarta.ws.rs.Path.class)) {
        for (Method method : type.getDeclaredMethods()) {
          verb(method).ifPresent(verb -> routes.add(route(type, method, verb)));
        }
      }
    }
    routes.sort(Comparator.comparing(Route::path).thenComparing(Route::method));
    return routes;
  }

  private static List<Class<?>> classes() {
    try (Stream<Path> files = Files.walk(CLASSES.resolve("clinic"))) {
      return files
          .map(file -> CLASSES.relativize(file).toString())
          .filter(name -> name.endsWith("Pages.class") || name.endsWith("Api.class"))
          .<Class<?>>map(name -> load(name.replace(".class", "").replace('/', '.')))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Class<?> load(String name) {
    try {
      return Class.forName(name, false, Thread.currentThread().getContextClassLoader());
    } catch (ClassNotFoundException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Optional<String> verb(Method method) {
    return Arrays.stream(method.getAnnotations())
        .map(Annotation::annotationType)
        .filter(type -> type.isAnnotationPresent(HttpMethod.class))
        .map(type -> type.getAnnotation(HttpMethod.class).value())
        .findFirst();
  }

  private static Route route(Class<?> type, Method method, String verb) {
    String path = "/" + type.getAnnotation(jakarta.ws.rs.Path.class).value();
    if (method.isAnnotationPresent(jakarta.ws.rs.Path.class)) {
      path += "/" + method.getAnnotation(jakarta.ws.rs.Path.class).value();
    }
    path = path.replaceAll("/+", "/");
    if (path.length() > 1 && path.endsWith("/")) {
      path = path.substring(0, path.length() - 1);
    }
    AnnotatedElement says = saysWho(method) ? method : type;
    RolesAllowed allowed = says.getAnnotation(RolesAllowed.class);
    return new Route(
        verb,
        path,
        allowed == null ? Set.of() : Set.of(allowed.value()),
        saysWho(says),
        consumes(type, method),
        type.getSimpleName() + "." + method.getName());
  }

  private static String consumes(Class<?> type, Method method) {
    Consumes consumes = method.getAnnotation(Consumes.class);
    if (consumes == null) {
      consumes = type.getAnnotation(Consumes.class);
    }
    return consumes == null || consumes.value().length == 0 ? "" : consumes.value()[0];
  }

  private static boolean saysWho(AnnotatedElement element) {
    return element.isAnnotationPresent(RolesAllowed.class)
        || element.isAnnotationPresent(PermitAll.class)
        || element.isAnnotationPresent(DenyAll.class);
  }
}
